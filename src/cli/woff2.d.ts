/** A font as a data address, as Vite makes it. */
declare module '*.woff2?inline' {
  const address: string;
  export default address;
}
