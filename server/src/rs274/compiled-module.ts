/**
 * A compiled module out of its bytes in base64; undefined where the host has no WebAssembly with SIMD, or does not allow it:
 * then the plain form of the same source does the work.
 */
export function compiledModule(base64: string): WebAssembly.Module | undefined {
  if (typeof WebAssembly === 'undefined') return undefined;
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let k = 0; k < text.length; k++) bytes[k] = text.charCodeAt(k);
  try {
    return WebAssembly.validate(bytes) ? new WebAssembly.Module(bytes) : undefined;
  } catch (error) {
    // A page may forbid compiling.
    if (!(error instanceof WebAssembly.CompileError)) throw error;
    return undefined;
  }
}

/** A memory of so many pages; undefined when the host has none: then the plain form works. */
export function memoryOf(pages: number): WebAssembly.Memory | undefined {
  try {
    return new WebAssembly.Memory({ initial: pages, maximum: pages });
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
