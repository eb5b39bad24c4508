export function withBundle<Module, Result>(
  entry: string,
  use: (module: Module, address: string) => Result | Promise<Result>,
): Promise<Result>;

export function bundleProgram(folder: string, outDir: string): Promise<void>;
