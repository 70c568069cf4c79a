import tseslint from 'typescript-eslint';

/** Only what the compiler misses: promises left alone, unsafe values, amounts handled as floats. */
export default tseslint.config(
  {
    ignores: [
      'dist/**',
      'node_modules/**',
      'data/**',
      'coverage/**',
      'src/browser/api/schema.ts',
      '*.config.js',
      '.*.cjs',
    ],
  },
  ...tseslint.configs.recommendedTypeChecked,
  {
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/consistent-type-imports': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      eqeqeq: 'error',
      'max-depth': ['error', 4],
      'no-console': 'error',
    },
  },
  {
    files: ['src/command-line/**', 'tests/bench/**', 'seed/**'],
    rules: { 'no-console': 'off' },
  },
);
