/** What the part of the kernel that looks at steps offers to the outside, plain or compiled. */
export { factorOf, lookAlong } from './axis.ts';
export { nextToSee, turnsBack } from './marks.ts';
export { addCuts } from './sum-cuts.ts';
