export declare const MAY_READ: readonly string[];
export declare function defaultsOfFile(files: readonly string[], looked: (file: string) => boolean): string[];
