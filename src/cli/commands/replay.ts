import { Command, InvalidArgumentError, Option } from 'commander';
import { cameOf } from '../../report/replay/came.ts';
import { recordReasons } from '../../record/why/reasons.ts';
import { causeWords } from '../../words/causes.ts';
import { resolvePlant } from '../../scenario/resolve.ts';
import { shiftsOf } from '../../scenario/options.ts';
import { besideOthers, whatSetApart } from '../../study/apart.ts';
import { rankShifts, type Ranked } from '../../study/ranked.ts';
import { REASON_SHIFTS, sumReasons } from '../../study/reasons.ts';
import { cautionsOf } from '../../report/pages/foot.ts';
import { replayPage, type ReplayTold } from '../../report/pages/replay-page.ts';
import { minutesJson } from '../../report/parts/reasons.ts';
import { stoodJson, tellStood } from '../../report/parts/stood.ts';
import { traitWords } from '../../report/replay/apart-words.ts';
import { chosen, KINDS } from '../../report/replay/chosen.ts';
import { standName, standsOf, standWords, whyLines, type Worth } from '../../report/replay/stands.ts';
import { VERSION } from '../../report/version.ts';
import { readInput } from '../input.ts';
import { printJson, printPage } from '../print.ts';
import { repeatCommand } from '../repeat.ts';
import { endless, running } from '../running.ts';
import {
  fileArgument,
  cautionsOption,
  jsonOption,
  optionOption,
  seedOption,
  threadsOption,
  wholeFrom,
  withOption,
  type StudyWords,
} from '../settings.ts';
import { Trouble } from '../trouble.ts';
import { addWhatIfs } from '../what-if-words.ts';

interface Words extends StudyWords {
  which: string;
  count: number;
}

const USUAL = 200;
const STOPPED = 130;

/** One shift, and why gear and people stood in it. */
export function replayCommand(): Command {
  const command = new Command('replay')
    .description('one shift: what set it apart, what stood longest and why, where the minutes go by reason')
    .addArgument(fileArgument())
    .addOption(
      new Option('--which <shift>', 'a bad, typical or good one of them, or one by its number from 1')
        .argParser(whichOf)
        .default('typical'),
    )
    .addOption(
      new Option('-n, --count <shifts>', 'shifts looked through')
        .argParser(wholeFrom(30, 10_000))
        .default(USUAL),
    )
    .addOption(optionOption())
    .addOption(withOption())
    .addOption(seedOption())
    .addOption(threadsOption())
    .addOption(cautionsOption())
    .addOption(jsonOption());
  return addWhatIfs(command).action((file: string | undefined, words: Words) => replay(file, words));
}

function whichOf(text: string): string {
  if (KINDS.some(({ value }) => value === text) || /^[1-9]\d{0,8}$/.test(text)) return text;
  throw new InvalidArgumentError('Allowed: bad, typical, good, or a number from 1.');
}

async function replay(file: string | undefined, words: Words): Promise<void> {
  const input = await readInput(file, words);
  const shifts = shiftsOf(input.scenario);
  const ranked = await running(words.threads, async ({ runner, signal }) => {
    try {
      return await rankShifts(shifts, words.count, runner, signal);
    } catch (error) {
      if (signal.aborted)
        throw new Trouble(STOPPED, 'Stopped by hand before all shifts were run: nothing is said.');
      throw error;
    }
  });
  const all = endless(() => tellAll(shifts, ranked, words));
  const repeat = {
    command: repeatCommand(['replay'], input, words, ['--which', words.which]),
    count: words.count,
  };
  const cautions = cautionsOf(input.scenario);
  if (words.json === true)
    printJson({
      command: 'replay',
      version: VERSION,
      file: input.file,
      applied: input.applied,
      seed: input.seed,
      replication: all[0]!.chosen.replication,
      kind: all[0]!.chosen.kind,
      shifts: all.map((told) => jsonOf(told, resolvePlant(input.scenario).money)),
      cautions,
      remarks: input.remarks,
      again: repeat.command,
    });
  else all.forEach((told) => printPage(replayPage(input, told, repeat, cautions)));
}

function tellAll(shifts: ReturnType<typeof shiftsOf>, ranked: Ranked, words: Words): ReplayTold[] {
  const which = chosen(ranked, words.which);
  const reasons = recordReasons(shifts, which.replication);
  const sums = sumReasons(shifts, Math.min(REASON_SHIFTS, words.count));
  const isAmong = which.replication < words.count;
  const inARow = { shifts: shifts.length, good: reasons.reduce((sum, { good }) => sum + good, 0) };
  return shifts.map((shift, i) => ({
    shift,
    reasons: reasons[i]!,
    good: reasons[i]!.good,
    chosen: which,
    apart: isAmong
      ? whatSetApart(shift, ranked.rows[i]!, which.replication, cameOf(reasons[i]!, sums[i]!))
      : [],
    beside: isAmong && shifts.length > 1 ? besideOthers(shift, ranked.rows[i]!, which.replication) : null,
    inARow,
    sums: sums[i]!,
  }));
}

function jsonOf({ shift, reasons, good, apart, sums }: ReplayTold, worth: Worth): unknown {
  return {
    name: shift.name,
    good,
    ends: reasons.ends,
    apart: apart.map((one) => ({ ...one, words: traitWords(one, shift) })),
    stands: standsOf(shift, reasons).map((stand) => ({
      kind: stand.kind,
      name: standName(stand, shift),
      from: stand.from,
      to: stand.to,
      lost: stand.lost,
      units: stand.units,
      words: [standWords(stand, shift, worth), ...whyLines(stand, shift)],
      reasons: stand.parts.map(({ from, to, there, chain, others }) => ({
        from,
        to,
        there,
        chain: chain.map((cause) => ({ ...cause, words: causeWords(cause, shift) })),
        others: others.map((cause) => ({ ...cause, words: causeWords(cause, shift) })),
      })),
    })),
    minutes: minutesJson([shift], [sums])[0],
    stood: stoodJson(tellStood([shift], [sums])!),
  };
}
