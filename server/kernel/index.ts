/** The compiled kernel: all that the plain one offers, and where its memory lies. Written in AssemblyScript. */

export { addressOf, useAddresses } from './memory';
export * from './plain/stock/index';
