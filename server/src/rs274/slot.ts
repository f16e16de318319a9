/**
 * What is worked out of an object and kept with it, for as long as the object lives. Like a WeakMap, but the value is held by
 * the object itself: the values of a WeakMap that has grown old outlive their keys until everything is collected, and what
 * is made at every key of a typist would pile up.
 */
export class Slot<K extends object, T> {
  private readonly name = Symbol('slot');

  get(key: K): T | undefined {
    return (key as { [name: symbol]: T | undefined })[this.name];
  }

  set(key: K, value: T | undefined): void {
    if (this.name in key) (key as { [name: symbol]: T | undefined })[this.name] = value;
    else Object.defineProperty(key, this.name, { value, writable: true, configurable: true });
  }

  delete(key: K): void {
    this.set(key, undefined);
  }
}
