/** What is run inside the page. Each function stands alone: it is sent over as text. */

/** The page tells of itself: when an answer first stood there, and when it was final. */
export function watch() {
  const look = () => {
    const page = document.querySelector('cw-app')?.shadowRoot?.querySelector('cw-compare');
    const sheet = page?.shadowRoot?.querySelector('cw-sheet');
    if (sheet && !/being run/.test(sheet.answer)) window.firstAnswer ??= performance.now();
    if (page?.study?.state.kind === 'done') window.finalAnswer ??= performance.now();
    requestAnimationFrame(look);
  };
  look();
}

/** Changes a value of the cell and waits for what the page makes of it. */
export async function change([place, value]) {
  const app = document.querySelector('cw-app');
  const page = app.shadowRoot.querySelector('cw-compare');
  const began = performance.now();
  const before = page.study.answer;
  app.cells.current.get().change('bench', place, value);
  let first = 0;
  for (;;) {
    await new Promise((resolve) => requestAnimationFrame(resolve));
    if (first === 0 && page.study.answer !== before) first = performance.now() - began;
    if (first > 0 && page.study.state.kind === 'done') return { first, final: performance.now() - began };
  }
}

/** Turns to a page by the line of words at the top, as a visitor does, and waits until it stands there. */
export async function turnTo(tag) {
  const app = document.querySelector('cw-app');
  location.hash = `#/${tag.replace('cw-', '')}`;
  const began = performance.now();
  while (app.shadowRoot.querySelector(`${tag}`) === null && performance.now() - began < 10_000)
    await new Promise((resolve) => requestAnimationFrame(resolve));
  if (app.shadowRoot.querySelector(`${tag}`) === null) throw new Error(`${tag} did not open`);
  return performance.now() - began;
}
