import { jobs, secondJobs, tryFault } from './fault.ts';
import { falseAlarms, tryAll } from './score.ts';
import { secondFaults } from './second.ts';

const all = jobs();
const verdicts = tryAll(all);
const families = [...new Set(verdicts.map(v => v.fault.family))];
for (const family of families) {
  const own = verdicts.filter(v => v.fault.family === family);
  const caught = own.filter(v => v.caught).length;
  console.log(`${family.padEnd(10)} ${caught} of ${own.length}`);
  for (const { fault, said } of own.filter(v => !v.caught))
    console.log(`  missed: ${fault.name} (${fault.job}): ${said || 'nothing said'}`);
}
const caught = verdicts.filter(v => v.caught).length;
const alarms = falseAlarms(all);
console.log(
  `all        ${caught} of ${verdicts.length} caught; ${alarms.length} false alarms on ${all.length} good programs and their rewrites`,
);
for (const alarm of alarms) console.log(`  false: ${alarm}`);
const others = secondJobs();
const second = secondFaults().map(fault => tryFault(fault, others));
const held = second.filter(v => v.caught).length;
console.log(`second set ${held} of ${second.length} held on ${others.length} programs`);
for (const { fault, said } of second.filter(v => !v.caught))
  console.log(`  lost: ${fault.name} (${fault.job}): ${said || 'nothing said'}`);
process.exitCode = held === second.length && alarms.length === 0 && caught >= 0.95 * verdicts.length ? 0 : 1;
