export function withBundle<Module, Result>(entry: string, use: (module: Module) => Result | Promise<Result>): Promise<Result>;
