/** What everything is measured against, written plainly here and timed in the same run. */

/** Reads every byte once. */
export function byteLoop(bytes: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < bytes.length; i++) sum = (sum + bytes[i]) | 0;
  return sum;
}

const WORD = /([A-Za-z])\s*([-+]?\d*\.?\d+|[-+]?\d+\.?)/g;

/** A usual script: cut into lines, match the words, follow the modal state, drop the words. */
export function splitAndMatch(bytes: Uint8Array): number {
  const modal: Record<string, number> = {};
  let length = 0;
  for (const line of new TextDecoder('latin1').decode(bytes).split(/\r?\n/)) {
    const bare = line.replace(/\([^)]*\)|;.*/g, '');
    const from = { x: modal.X ?? 0, y: modal.Y ?? 0, z: modal.Z ?? 0 };
    for (const match of bare.matchAll(WORD)) modal[match[1].toUpperCase()] = Number.parseFloat(match[2]);
    length += Math.hypot((modal.X ?? 0) - from.x, (modal.Y ?? 0) - from.y, (modal.Z ?? 0) - from.z);
  }
  return length;
}

/** The same, keeping each line's words as objects. */
export function splitMatchAndKeep(bytes: Uint8Array): number {
  const lines: { words: { letter: string; value: number }[]; length: number }[] = [];
  const modal: Record<string, number> = {};
  for (const line of new TextDecoder('latin1').decode(bytes).split(/\r?\n/)) {
    const bare = line.replace(/\([^)]*\)|;.*/g, '');
    const from = { x: modal.X ?? 0, y: modal.Y ?? 0, z: modal.Z ?? 0 };
    const words = [];
    for (const match of bare.matchAll(WORD)) {
      const word = { letter: match[1].toUpperCase(), value: Number.parseFloat(match[2]) };
      modal[word.letter] = word.value;
      words.push(word);
    }
    const length = Math.hypot((modal.X ?? 0) - from.x, (modal.Y ?? 0) - from.y, (modal.Z ?? 0) - from.z);
    lines.push({ words, length });
  }
  return lines.length;
}
