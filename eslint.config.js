// The rules of the house, as far as a machine can watch them: which part may import which, what the pure
// parts never touch, how long a file may be.
import { importX } from 'eslint-plugin-import-x';
import tseslint from 'typescript-eslint';

/**
 * From the ground up: each room may import those on the floors before it; rooms on one floor do not know
 * each other.
 */
const FLOORS = [
  ['random', 'core'],
  ['duration'],
  ['scenario'],
  ['engine', 'money', 'book'],
  ['record'],
  ['study'],
  ['staffing', 'timing'],
  ['today'],
  ['words'],
  ['whatif'],
  ['charts'],
  ['document'],
  ['report'],
  ['work', 'shards'],
  ['cli', 'library'],
];
const WAY = FLOORS.map((rooms) => rooms.join(', ')).join(' <- ');

const zones = FLOORS.flatMap((rooms, floor) =>
  rooms.map((room) => ({
    target: `./src/${room}`,
    from: [
      ...rooms.filter((other) => other !== room).map((beside) => `./src/${beside}`),
      ...FLOORS.slice(floor + 1)
        .flat()
        .map((above) => `./src/${above}`),
      './web',
      './tests',
    ],
    message: `Imports go one way only: ${WAY}, web.`,
  })),
);

/** Rooms that touch no page, no clock on the wall, no file and no console: all but the two at the top. */
const PURE = FLOORS.slice(0, -2)
  .flat()
  .map((room) => `src/${room}/**/*.ts`);

const restrictedGlobals = [
  'console',
  'document',
  'window',
  'self',
  'globalThis',
  'localStorage',
  'sessionStorage',
  'indexedDB',
  'navigator',
  'location',
  'fetch',
  'process',
  'setTimeout',
  'setInterval',
  'requestAnimationFrame',
  'performance',
  'Buffer',
  'Worker',
];

/** Functions whose last bit differs from machine to machine; the engine has exact ones of its own. */
const INEXACT = [
  'exp',
  'expm1',
  'log',
  'log2',
  'log10',
  'log1p',
  'pow',
  'sin',
  'cos',
  'tan',
  'asin',
  'acos',
  'atan',
  'atan2',
  'sinh',
  'cosh',
  'tanh',
  'cbrt',
  'hypot',
];

export default tseslint.config(
  { ignores: ['src/core/platform.wasm.ts', 'dist/**', 'node_modules/**', 'coverage/**', '**/*.local'] },
  {
    files: ['**/*.ts', '**/*.js', '**/*.mjs'],
    extends: [tseslint.configs.strict, tseslint.configs.stylistic],
    plugins: { 'import-x': importX },
    // Without a parser for them the rule on cycles takes TypeScript files for empty ones.
    settings: {
      'import-x/extensions': ['.ts', '.js', '.mjs'],
      'import-x/parsers': { '@typescript-eslint/parser': ['.ts'] },
    },
    languageOptions: { parserOptions: { ecmaVersion: 'latest', sourceType: 'module' } },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      // Sentences stay whole on their line, so that they can be searched for; everything else wraps.
      'max-len': [
        'error',
        {
          code: 110,
          ignoreStrings: true,
          ignoreTemplateLiterals: true,
          ignoreRegExpLiterals: true,
          ignoreUrls: true,
        },
      ],
      'max-lines': ['error', { max: 400, skipBlankLines: true, skipComments: true }],
      'no-var': 'error',
      'no-control-regex': 'error',
      'object-shorthand': 'error',
      'prefer-const': ['error', { destructuring: 'all' }],
      'no-warning-comments': ['error', { terms: ['todo', 'fixme', 'xxx', 'hack'] }],
      'import-x/no-restricted-paths': ['error', { zones }],
      'import-x/no-duplicates': ['error', { 'prefer-inline': true }],
      'import-x/no-self-import': 'error',
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        {
          argsIgnorePattern: '^_',
          varsIgnorePattern: '^_',
          destructuredArrayIgnorePattern: '^_',
          ignoreRestSiblings: true,
        },
      ],
      // Bounds the loops have checked: typed arrays give `number | undefined` under noUncheckedIndexedAccess.
      '@typescript-eslint/no-non-null-assertion': 'off',
      // A recorder that hears everything has empty methods; so has a cell that ignores a fact.
      '@typescript-eslint/no-empty-function': 'off',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/consistent-type-definitions': 'off',
      '@typescript-eslint/array-type': 'off',
      '@typescript-eslint/prefer-for-of': 'off',
      '@typescript-eslint/no-invalid-void-type': 'off',
      '@typescript-eslint/class-literal-property-style': 'off',
      '@typescript-eslint/consistent-indexed-object-style': 'off',
    },
  },
  {
    // Read by browsers older than anything else here: JavaScript of 2009.
    files: ['web/begin/*.js'],
    languageOptions: { parserOptions: { ecmaVersion: 5, sourceType: 'script' } },
    rules: { 'no-var': 'off', 'object-shorthand': 'off', 'prefer-const': 'off' },
  },
  {
    // The second reading of the rules (tests/support/reference) follows the rules' own order and goes round.
    files: ['src/**/*.ts', 'web/**/*.ts'],
    rules: { 'import-x/no-cycle': ['error', { ignoreExternal: true }] },
  },
  {
    files: ['tests/**/*.ts'],
    ignores: ['tests/support/holds.ts'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'fc', property: 'assert', message: 'Without a seed: use tests/support/holds.ts.' },
      ],
    },
  },
  {
    files: PURE,
    rules: {
      'no-console': 'error',
      'no-restricted-globals': [
        'error',
        ...restrictedGlobals.map((name) => ({
          name,
          message: 'Only src/cli, src/work and web touch the world outside.',
        })),
      ],
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              group: ['node:*', 'lit', 'lit/*', 'idb', 'commander'],
              message: 'Only src/cli, src/work and web touch the world outside.',
            },
          ],
        },
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The clock on the wall stays outside.' },
        {
          object: 'Math',
          property: 'random',
          message: 'A run is a function of scenario, seed and replication alone.',
        },
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: "NewExpression[callee.name='Date'][arguments.length=0]",
          message: 'The clock on the wall stays outside.',
        },
      ],
    },
  },
  {
    files: ['src/random/**/*.ts', 'src/core/**/*.ts', 'src/duration/**/*.ts', 'src/engine/**/*.ts'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The clock on the wall stays outside.' },
        { object: 'Math', property: 'random', message: 'Draws are keyed: see src/random.' },
        ...INEXACT.map((property) => ({
          object: 'Math',
          property,
          message: 'Differs in the last bit from machine to machine: use src/random/exact.ts.',
        })),
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: "BinaryExpression[operator='**']",
          message: 'Differs in the last bit from machine to machine: multiply, or use src/random/exact.ts.',
        },
      ],
    },
  },
  {
    // In the core a number is an integer or a double, and says which.
    files: ['src/core/**/*.ts'],
    rules: { '@typescript-eslint/no-inferrable-types': 'off' },
  },
);
