/** A localStorage of our own, for node: its texts are its own properties, as in a browser. */
export function smallStore(): Storage {
  const methods = {
    getItem(this: Record<string, string>, key: string): string | null {
      return Object.hasOwn(this, key) ? this[key]! : null;
    },
    setItem(this: Record<string, string>, key: string, text: string): void {
      this[key] = text;
    },
    removeItem(this: Record<string, string>, key: string): void {
      Reflect.deleteProperty(this, key);
    },
  };
  return Object.create(methods) as Storage;
}
