import { Command } from 'commander';
import { LIST_MEASURE_WORDS, MEASURE_WORDS } from '../../record/describe.ts';
import { VERSION } from '../../report/version.ts';
import { measuresPage } from '../../report/pages/figures.ts';
import { STANDARD_KPIS } from '../../study/standard-kpis.ts';
import { printJson, printPage } from '../print.ts';

/** What stands in the JSON of a run, each with its name, unit and meaning. */
export function measuresCommand(): Command {
  return new Command('measures')
    .description('what is counted in a shift: the name of each figure, its unit and what it means')
    .option('--json', 'one JSON document instead of a page')
    .action(({ json }: { json?: boolean }) => {
      if (json === true)
        printJson({
          command: 'measures',
          version: VERSION,
          measures: MEASURE_WORDS,
          lists: LIST_MEASURE_WORDS,
          kpis: Object.values(STANDARD_KPIS),
        });
      else printPage(measuresPage());
    });
}
