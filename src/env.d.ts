interface ImportMetaEnv {
  /** Of package.json, put in by the build. */
  readonly APP_VERSION: string;
}
