/** A work offset as people write it, from the number that runs hold (540, 591, 54101, 530); undefined when none is stated. */
export function frameName(frame: number): string | undefined {
  if (frame === 530) return 'machine';
  if (!(frame > 0)) return undefined;
  if (frame > 54000) return `G54.1 P${frame - 54100}`;
  return `G${frame / 10}`;
}
