// What a third clamp set brings in the shop whose file is named, in a few lines.
import { readFileSync } from 'node:fs';
import { findLimits, readScenario, runStudy } from 'clampwright';

const reading = readScenario(readFileSync(process.argv[2], 'utf8'));
if (reading.kind === 'wrong') throw new Error(reading.faults.map((fault) => fault.text).join('\n'));
const { scenario } = reading;

const study = await runStudy(scenario, { options: ['third-set'], count: 100 });
const [today] = study.cases;
const [gain] = study.gains;
console.log(
  `${scenario.name}: ${today.good.estimate.toFixed(1)} a shift, nine in ten make ${today.nineInTen}`,
);
console.log(`third-set: ${gain.good.low.toFixed(1)} to ${gain.good.high.toFixed(1)} more`);

const { limits } = await findLimits(scenario, { count: 40 });
console.log(`the most: ${limits[0].name}`);
