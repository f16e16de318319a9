/**
 * The compiled kernel of reader and review: all that the plain ones offer, and where the memory lies. One module, so that
 * steps are looked at where they were read. Written in AssemblyScript.
 */

export { addressOf } from './memory';
export * from './plain/review/index';
export * from './plain/rs274/index';
