/** The compiled kernel, made ready when it is first asked for. */
import { kernelBytes } from './kernel-bytes.ts';

let asked = false;
let module: WebAssembly.Module | undefined;

/** The module; undefined where the host has no WebAssembly with SIMD, or does not allow it. */
export function kernelModule(): WebAssembly.Module | undefined {
  if (asked) return module;
  asked = true;
  if (typeof WebAssembly === 'undefined') return undefined;
  const text = atob(kernelBytes);
  const bytes = new Uint8Array(text.length);
  for (let k = 0; k < text.length; k++) bytes[k] = text.charCodeAt(k);
  try {
    if (WebAssembly.validate(bytes)) module = new WebAssembly.Module(bytes);
  } catch (error) {
    // a page may forbid compiling: the plain kernel does the same work
    if (!(error instanceof WebAssembly.CompileError)) throw error;
  }
  return module;
}
