/** From a tape of facts (src/core/facts.ts) to whoever wants to hear them. */
import * as facts from '../core/facts.ts';
import type { Recorder } from './recorder.ts';

type Hear = (to: Recorder, time: number, tape: Float64Array, at: number) => void;

/** By fact: how many numbers follow its time, and what is told with them. */
const TOLD: Record<number, [count: number, hear: Hear]> = {
  [facts.ARRIVE]: [2, (to, time, n, i) => to.arrive(time, n[i]!, n[i + 1]!)],
  [facts.KEEP_OUTSIDE]: [2, (to, time, n, i) => to.keepOutside(time, n[i]!, n[i + 1]!)],
  [facts.ENTER]: [2, (to, time, n, i) => to.enter(time, n[i]!, n[i + 1]!)],
  [facts.DIVERT]: [1, (to, time, n, i) => to.divert(time, n[i]!)],
  [facts.JOIN]: [3, (to, time, n, i) => to.join(time, n[i]!, n[i + 1]!, n[i + 2]!)],
  [facts.START]: [
    8,
    (to, time, n, i) =>
      to.start(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!, n[i + 4]!, n[i + 5]!, n[i + 6]!, n[i + 7]!),
  ],
  [facts.PUTS_DOWN]: [4, (to, time, n, i) => to.putDown(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!)],
  [facts.RESUME]: [4, (to, time, n, i) => to.resume(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!)],
  [facts.FINISH]: [5, (to, time, n, i) => to.finish(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!, n[i + 4]!)],
  [facts.WAIT_START]: [3, (to, time, n, i) => to.waitStart(time, n[i]!, n[i + 1]!, n[i + 2]!)],
  [facts.WAIT_END]: [4, (to, time, n, i) => to.waitEnd(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!)],
  [facts.BLOCK]: [3, (to, time, n, i) => to.block(time, n[i]!, n[i + 1]!, n[i + 2]!)],
  [facts.UNBLOCK]: [3, (to, time, n, i) => to.unblock(time, n[i]!, n[i + 1]!, n[i + 2]!)],
  [facts.STAND_ASIDE]: [2, (to, time, n, i) => to.standAside(time, n[i]!, n[i + 1]!)],
  [facts.RELEASED]: [2, (to, time, n, i) => to.release(time, n[i]!, n[i + 1]!)],
  [facts.GOOD]: [4, (to, time, n, i) => to.good(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!)],
  [facts.OUT_AGAIN]: [1, (to, time, n, i) => to.again(time, n[i]!)],
  [facts.SCRAPPED]: [1, (to, time, n, i) => to.scrap(time, n[i]!)],
  [facts.RACK_SENT]: [2, (to, time, n, i) => to.rackSent(time, n[i]!, n[i + 1]!)],
  [facts.CHANGE_PLACES]: [1, (to, time, n, i) => to.changePlaces(time, n[i]!)],
  [facts.PERSON]: [3, (to, time, n, i) => to.person(time, n[i]!, n[i + 1]!, n[i + 2] !== 0)],
  [facts.GEAR]: [4, (to, time, n, i) => to.gear(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!)],
  [facts.TARGET_MET]: [0, (to, time) => to.targetMet(time)],
  [facts.BREAK_LAPSED]: [2, (to, time, n, i) => to.breakLapsed(time, n[i]!, n[i + 1]!)],
  [facts.HEAD]: [3, (to, time, n, i) => to.head(time, n[i]!, n[i + 1]!, n[i + 2]!)],
  [facts.REFUSAL]: [
    5,
    (to, time, n, i) => to.refusal(time, n[i]!, n[i + 1]!, n[i + 2]!, n[i + 3]!, n[i + 4]!),
  ],
  [facts.CLOSE]: [2, (to, time, n, i) => to.end(time, n[i]!, n[i + 1]!)],
};

/** Tells all facts of a tape, in their order. */
export function tell(tape: Float64Array, recorder: Recorder): void {
  let at = 0;
  while (at < tape.length) {
    const [count, hear] = TOLD[tape[at]!]!;
    hear(recorder, tape[at + 1]!, tape, at + 2);
    at += 2 + count;
  }
}
