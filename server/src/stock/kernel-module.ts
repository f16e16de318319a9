import { compiledModule } from '../rs274/compiled-module.ts';
import { kernelBytes } from './kernel-bytes.ts';

let asked = false;
let module: WebAssembly.Module | undefined;

/** The compiled kernel, made ready when it is first asked for; undefined where it cannot run. */
export function kernelModule(): WebAssembly.Module | undefined {
  if (!asked) module = compiledModule(kernelBytes);
  asked = true;
  return module;
}
