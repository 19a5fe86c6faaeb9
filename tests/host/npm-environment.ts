/** The environment for an npm that installs elsewhere: what `npm run` tells its scripts about the clone is not meant for it. */
export function npmEnvironment(): NodeJS.ProcessEnv {
  const env: NodeJS.ProcessEnv = {};
  const ofTheClone =
    /^(npm_package_|npm_lifecycle_|npm_config_(local_prefix|omit|prefix|global_prefix)|INIT_CWD$|NODE_ENV$|npm_command$)/;
  for (const [name, value] of Object.entries(process.env)) if (!ofTheClone.test(name)) env[name] = value;
  return env;
}
