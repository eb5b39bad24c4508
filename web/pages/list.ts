/** The pages, in the order of the line of words at the top. A new page is one file and one entry here. */
import type { Page } from './page.ts';

export const pages: Page[] = [
  {
    route: 'morning',
    question: 'What is this day about?',
    group: 'before',
    element: async () => (await import('./morning/morning-page.ts')).CwMorning,
  },
  {
    route: 'crew',
    question: 'Who stands where tomorrow?',
    group: 'before',
    element: async () => (await import('./crew/crew-page.ts')).CwCrew,
  },
  {
    route: 'week',
    question: 'How does the week go?',
    group: 'before',
    element: async () => (await import('./week/week-page.ts')).CwWeek,
  },
  {
    route: 'now',
    question: 'Do we still make it?',
    group: 'during',
    element: async () => (await import('./now/now-page.ts')).CwNow,
  },
  {
    route: 'replay',
    question: 'Show me',
    group: 'during',
    element: async () => (await import('./replay/replay-page.ts')).CwReplay,
  },
  {
    route: 'handover',
    question: 'What do I hand over?',
    group: 'after',
    element: async () => (await import('./handover/handover-page.ts')).CwHandover,
  },
  {
    route: 'log',
    question: 'Was the forecast right?',
    group: 'after',
    element: async () => (await import('./log/log-page.ts')).CwLog,
  },
  {
    route: 'compare',
    question: 'What if?',
    group: 'upstairs',
    element: async () => (await import('./compare/compare-page.ts')).CwCompare,
  },
  {
    route: 'limits',
    question: 'What holds us back?',
    group: 'upstairs',
    element: async () => (await import('./limits/limits-page.ts')).CwLimits,
  },
  {
    route: 'brief',
    question: 'What do I tell them upstairs?',
    group: 'upstairs',
    element: async () => (await import('./brief/brief-page.ts')).CwBrief,
  },
  {
    route: 'cell',
    question: 'What does our cell look like?',
    group: 'behind',
    element: async () => (await import('./cell/cell-page.ts')).CwCell,
  },
  {
    route: 'times',
    question: 'What are our times?',
    group: 'behind',
    element: async () => (await import('./times/times-page.ts')).CwTimes,
  },
];
