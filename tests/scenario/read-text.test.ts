import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/scenario/check.ts';

const texts = (file: string): string[] => {
  const reading = readScenario(file);
  return reading.kind === 'fine' ? ['fine'] : reading.faults.map((fault) => fault.text);
};

describe('a file that is no JSON', () => {
  it.each([
    [
      '',
      'The file: found an empty file; allowed: a scenario in JSON; start from a copy of scenarios/one-step.json.',
    ],
    [
      '{"a":1,}',
      'The file: found a comma before } at line 1, column 8; allowed: commas only between entries; take the last comma away.',
    ],
    [
      '{\n  "a" 1}',
      'The file: found "1" at line 2, column 7; allowed: a colon between a name and its value; put a colon here.',
    ],
    [
      '{\r\n"a":1\r\n"b":2}',
      'The file: found "\\"b\\"" at line 3, column 1; allowed: a comma between entries; put a comma before it.',
    ],
    [
      '{"a":NaN}',
      'The file: found NaN at line 1, column 6; allowed: numbers that can be counted; write the number, or take the entry away where there is none.',
    ],
    [
      '{"a":.5}',
      'The file: found ".5" at line 1, column 6; allowed: a number that begins with a digit; write 0.5, not .5, and no plus sign.',
    ],
    [
      "{'a':1}",
      'The file: found "\'a\'" at line 1, column 2; allowed: straight double quotes; write names and text in " and ".',
    ],
    [
      '{"a":6:00}',
      'The file: found a colon at line 1, column 7; allowed: clock times in double quotes; write the clock time as "HH:MM", for example "06:00".',
    ],
    [
      '{"a":1',
      'The file: found the end of the file at line 1, column 7; allowed: a closing }; close the group with }; the file may have been cut off.',
    ],
    [
      '{"a":1}}',
      'The file: found "}" at line 1, column 8; allowed: nothing after the last }; take away what follows, or one } too many before it.',
    ],
    [
      '{"a":1, // b\n"c":2}',
      'The file: found a comment at line 1, column 9; allowed: no comments; put the remark into "about" or take it away.',
    ],
    [
      '{"a":"b\n"}',
      'The file: found text whose closing quote is missing on its line at line 1, column 6; allowed: text in double quotes, on one line; put the closing " (a new line inside text is written \\n).',
    ],
  ])('says what, where and what to do: %j', (file, text) => {
    expect(texts(file)).toEqual([text]);
  });

  it('says something for every way to cut a file off', () => {
    const file = '{"format": 1, "steps": {"glue": {"time": [1, -2.5e3, true, null, "\\u00e9\\n"]}}}';
    for (let end = 0; end < file.length; end++) {
      const [text] = texts(file.slice(0, end));
      expect(text, file.slice(0, end)).toMatch(/^The file: found .+; allowed: .+; .+[.?]$/);
    }
  });
});

describe('a file made to do harm', () => {
  it('is refused at more than 10 MB, and read at 10 MB', () => {
    const big = (size: number): string => `{"about":"${'x'.repeat(size - 12)}"}`;
    expect(texts(big(10 * 1024 * 1024 + 1))).toEqual([
      'The file: found a file of 10.0 MB; allowed: at most 10 MB; keep the observations out of the file, or thin them.',
    ]);
    expect(texts(big(10 * 1024 * 1024)).join()).toMatch(/Format: found nothing/);
  });

  it('is refused at a depth of 41 without ending the stack, and read at 40', () => {
    expect(texts('['.repeat(100_000))).toEqual([
      'The file: found groups nested deeper than 40 at line 1, column 41; allowed: at most 40 levels; take brackets away; a scenario needs fewer than ten levels.',
    ]);
    expect(texts(`${'['.repeat(41)}${']'.repeat(41)}`).join()).toMatch(/deeper than 40/);
    expect(texts(`${'['.repeat(40)}${']'.repeat(40)}`)).toEqual([
      'The file: found a list of 1; allowed: a group in { }; write its entries in { }.',
    ]);
    expect(texts(`{"a":"${'['.repeat(100)}\\"${'{'.repeat(100)}"}`).join()).not.toMatch(/deeper/);
  });

  it('cannot give a name twice and lose one', () => {
    expect(texts('{"people": {"ada": {}, "bo": {},\n "ada": {}}}')).toEqual([
      'Ada: found "ada" a second time at line 2, column 2; allowed: each name once in its group; give one of the two another name, or take it away.',
    ]);
  });

  it('cannot reach the language through a name', () => {
    const file =
      '{"format":1,"name":"x","steps":{"glue":{"time":1}},"people":{"ada":{"covers":["glue"]}},"__proto__":{"admin":true},"products":{"constructor":{}}}';
    expect(texts(file)).toEqual([
      '__proto__: found the name "__proto__"; allowed: any other name; rename it or take it away.',
    ]);
    expect(({} as Record<string, unknown>)['admin']).toBeUndefined();
    expect(texts(file.replace('"__proto__":{"admin":true},', ''))).toEqual([
      'Product “constructor”: found the name "constructor"; allowed: small letters, digits and hyphens, beginning with a letter, at most 40 ("constructor" is taken); give it a short name such as "glue".',
    ]);
  });

  it('is refused where the faults are too many to hand on, also at the end of a list', () => {
    const list = (good: number, bad: number): string[] =>
      texts(
        `{"format":1,"name":"x","steps":{"glue":{"time":1}},"people":{"ada":{"covers":["glue"]}},"intake":{"kind":"list","arrivals":[${[
          ...Array<string>(good).fill('{"at":"07:00"}'),
          ...Array<string>(bad).fill('{"at":7,"prodct":1,"rush":2,"due":3}'),
        ].join()}]}}`,
      );
    expect(list(0, 99_000)[0]).toBe(
      'Intake, arrivals, no. 1, at: found 7; allowed: text in double quotes; put it in double quotes.',
    );
    expect(list(1000, 99_000)[0]).toMatch(/found .+; allowed: .+; .+\.$/);
  });

  it('is answered with a hundred faults at most', () => {
    const wrong = Array.from({ length: 90_000 }, () => '{"at":"5:00","prodct":1}').join();
    const reading = readScenario(
      `{"format":1,"name":"x","steps":{"glue":{"time":1}},"people":{"ada":{"covers":["glue"]}},"intake":{"kind":"list","arrivals":[${wrong}]}}`,
    );
    expect(reading.kind === 'wrong' && reading.faults.length).toBe(101);
    const steps = Array.from({ length: 200_000 }, (_, i) => `"s${i}":{"time":1}`).join();
    expect(texts(`{"format":1,"name":"x","steps":{${steps}},"people":{"ada":{}}}`)[0]).toBe(
      'Steps: found 200000 entries; allowed: at most 30; put some together, or make two files.',
    );
  });
});

it('reads a file with a byte order mark', () => {
  expect(
    texts('\uFEFF{"format":1,"name":"x","steps":{"glue":{"time":1}},"people":{"ada":{"covers":["glue"]}}}'),
  ).toEqual(['fine']);
});
