/** 32-bit integers, signed. AssemblyScript has them; to TypeScript they are numbers like any other. */
type i32 = number;

/** This room compiled to WebAssembly, as text (asText in compile.mjs). */
declare module 'virtual:core' {
  const text: string;
  export default text;
}
