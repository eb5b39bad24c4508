// The rooms whose tests are put to the test, and the tests that are theirs: none that needs a build.
export const AREAS = {
  money: {
    source: ['src/money'],
    tests: ['tests/money', 'tests/published/pay', 'tests/report/page/money', 'tests/words/verdicts'],
  },
  staffing: {
    source: ['src/staffing'],
    tests: ['tests/staffing', 'tests/report/page/words'],
  },
  study: {
    source: ['src/study'],
    tests: ['tests/study', 'tests/published', 'tests/words/verdicts', 'tests/today/forecast'],
  },
  record: {
    source: ['src/record'],
    tests: [
      'tests/record',
      'tests/engine/row-checksums',
      'tests/engine/two-readings',
      'tests/engine/hand-trace',
      'tests/study/case-record',
      'tests/timing/event',
      'tests/published/pay',
    ],
  },
  engine: {
    source: ['src/core', 'src/engine'],
    plainCore: true,
    tests: ['tests/engine', 'tests/published', 'tests/today'],
  },
};
