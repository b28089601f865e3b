interface ImportMetaEnv {
  /** Of package.json, put in by the build. */
  readonly APP_VERSION: string;
  /** Of the code that folds a log, put in by the build. */
  readonly FOLD_VERSION: string;
}
