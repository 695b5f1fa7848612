import { readFileSync } from 'node:fs';
import { createNodeResolver, importX } from 'eslint-plugin-import-x';
import reactHooks from 'eslint-plugin-react-hooks';
import { defineConfig, globalIgnores } from 'eslint/config';
import typescript from 'typescript-eslint';

/** The layers and the packages each may import; tests/unit/layers.test.ts holds the sources to the same file. */
const layers = JSON.parse(readFileSync(new URL('./tests/support/layers.json', import.meta.url), 'utf8'));

export default defineConfig(
  globalIgnores(['dist/', 'coverage/', 'node_modules/', '**/.cache/']),
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  {
    files: ['**/*.{ts,tsx}'],
    extends: [typescript.configs.recommendedTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    plugins: { 'import-x': importX },
    settings: {
      // Without the first, no-cycle does not look into TypeScript files and finds nothing.
      'import-x/extensions': ['.ts', '.tsx'],
      'import-x/resolver-next': [createNodeResolver({ extensions: ['.ts', '.tsx', '.js', '.json'] })],
    },
    rules: {
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'no-console': 'error',
      'prefer-const': 'error',
      'no-restricted-syntax': ['error', ...noDefaultExports(), ...noLooseTolerance()],
      '@typescript-eslint/consistent-type-imports': ['error', { disallowTypeAnnotations: false }],
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true, allowBoolean: true }],
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      // Callbacks in props are written as methods; no class here gives one away with its `this`.
      '@typescript-eslint/unbound-method': 'off',
      'import-x/no-cycle': ['error', { ignoreExternal: true }],
      'import-x/no-restricted-paths': ['error', { basePath: import.meta.dirname, zones: layerZones() }],
    },
  },
  {
    files: ['src/{app,hooks,notebook,stage,staff,print}/**/*.{ts,tsx}'],
    plugins: { 'react-hooks': reactHooks },
    // Named one by one: the recommended set also holds rules for the React Compiler, which is not used here and takes
    // writing to a ref that came through a prop (how the frame loop draws without rendering) for a fault.
    rules: Object.fromEntries(
      ['rules-of-hooks', 'exhaustive-deps', 'static-components', 'purity', 'globals', 'set-state-in-render'].map((rule) => [
        `react-hooks/${rule}`,
        'error',
      ]),
    ),
  },
  ...Object.entries(layers).flatMap(([name, layer]) => packageRules(name, layer)),
  { files: ['src/core/**/*.ts'], rules: pureRules() },
  { files: ['src/cli/**', 'tests/bench/**', 'tests/browser/support/shot.ts'], rules: { 'no-console': 'off' } },
  { files: ['*.config.ts'], rules: { 'no-restricted-syntax': 'off' } },
);

function noDefaultExports() {
  return [
    { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
    { selector: 'ExportSpecifier[exported.name="default"]', message: 'Named exports only.' },
    { selector: 'ExportAllDeclaration', message: 'Name what is exported.' },
  ];
}

function noLooseTolerance() {
  return [{ selector: 'MemberExpression[property.name="toBeCloseTo"]', message: 'Use expectWithin: it names its tolerance.' }];
}

/** For each layer, the folders under src that it may not reach into. */
function layerZones() {
  const names = Object.keys(layers);
  return names.flatMap((name) => {
    const barred = [...names, 'models'].filter((other) => other !== name && !layers[name].layers.includes(other));
    return barred.map((other) => ({
      target: `./src/${name}`,
      from: other === 'models' ? './models' : `./src/${other}`,
      message: `${name} may not import ${other} (docs/architecture.md).`,
    }));
  });
}

function packageRules(name, { packages, packagesByFile = {} }) {
  const rules = (allowed) => ({ 'no-restricted-imports': ['error', { patterns: [onlyPackages(name, allowed)] }] });
  return [
    { files: [`src/${name}/**/*.{ts,tsx}`], rules: rules(packages) },
    ...Object.entries(packagesByFile).map(([file, own]) => ({
      files: [`src/${name}/${file}`],
      rules: rules([...packages, ...own]),
    })),
  ];
}

/** Matches every specifier that is neither relative nor one of the allowed packages ('x/*' stands for all that begin so). */
function onlyPackages(name, allowed) {
  const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
  const each = allowed.map((one) => (one.endsWith('*') ? escaped(one.slice(0, -1)) : `${escaped(one)}(?:\\/|$)`));
  return {
    regex: `^(?!${['\\.', ...each].join('|')})`,
    message: `${name} may import ${allowed.join(', ') || 'no package'} (tests/support/layers.json).`,
  };
}

/** Numbers only: what core needs of time, chance or storage is handed to it. */
function pureRules() {
  const outside = ['window', 'document', 'navigator', 'localStorage', 'sessionStorage', 'indexedDB', 'fetch', 'process'];
  const clock = ['Date', 'performance', 'setTimeout', 'setInterval', 'requestAnimationFrame', 'globalThis', 'crypto'];
  return {
    'no-restricted-globals': ['error', ...[...outside, ...clock].map((name) => ({ name, message: 'core is pure.' }))],
    'no-restricted-properties': ['error', { object: 'Math', property: 'random', message: 'Chance is an argument.' }],
  };
}
