/**
 * The tasks of a page's main thread while something is done, from Chromium's own trace: the browser's "long
 * task" list begins at 50 ms, this one has every length. The trace is read after, so that reading it weighs
 * on nothing.
 */

/**
 * @returns what `act` returns, and the milliseconds of the longest task meanwhile: by the clock, and of the
 *   processor's time, which other work on the machine does not lengthen.
 */
export async function tasksDuring(page, act) {
  const session = await page.context().newCDPSession(page);
  const events = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...value));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', 'devtools.timeline', '__metadata'] },
  });
  const result = await act();
  const over = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await over;
  await session.detach();
  return { result, ...longestOf(events, new URL(page.url()).origin) };
}

/**
 * The page's thread is the main one of the renderer that speaks of its scripts; the browser draws parts of
 * its own window in others.
 */
function longestOf(events, origin) {
  const mains = events
    .filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain')
    .map(({ pid, tid }) => `${pid} ${tid}`);
  const ours = new Map(mains.map((thread) => [thread, 0]));
  for (const { pid, tid, args } of events) {
    const thread = `${pid} ${tid}`;
    if (ours.has(thread) && args?.data?.url?.startsWith(origin)) ours.set(thread, ours.get(thread) + 1);
  }
  const [main, said] = [...ours].sort((a, b) => b[1] - a[1])[0];
  if (said === 0) throw new Error('the trace does not speak of the page');
  const runs = events.filter(
    ({ name, ph, pid, tid }) => ph === 'X' && /RunTask$/.test(name) && `${pid} ${tid}` === main,
  );
  const longest = (key) => Math.max(0, ...runs.map((run) => (run[key] ?? 0) / 1000));
  return { longest: longest('dur'), processor: longest('tdur') };
}
