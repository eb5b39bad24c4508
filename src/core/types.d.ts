/** 32-bit integers, signed. AssemblyScript has them; to TypeScript they are numbers like any other. */
type i32 = number;

/** This room compiled to WebAssembly, in base64 (compile.mjs). */
declare module 'virtual:core' {
  const base64: string;
  export default base64;
}
