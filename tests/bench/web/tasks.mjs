/**
 * The tasks of a page's main thread while something is done, from Chromium's own trace: the browser's "long task" list begins at 50 ms,
 * this one has every length. The trace is read after, so that reading it weighs on nothing.
 */

/** @returns what `act` returns, and the milliseconds of the longest tasks meanwhile, longest first. */
export async function tasksDuring(page, act) {
  const session = await page.context().newCDPSession(page);
  const events = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...value));
  await session.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { includedCategories: ['toplevel', 'devtools.timeline', '__metadata'] } });
  const result = await act();
  const over = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await over;
  await session.detach();
  return { result, tasks: tasksOf(events) };
}

/** The page's process is the one that drew its frames; its thread is called the renderer's main one. */
function tasksOf(events) {
  const mains = events.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(({ pid, tid }) => `${pid} ${tid}`);
  const runs = events.filter(({ name, ph, pid, tid }) => ph === 'X' && /RunTask$/.test(name) && mains.includes(`${pid} ${tid}`));
  return runs.map(({ dur }) => dur / 1000).sort((a, b) => b - a);
}
