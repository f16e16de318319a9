/** A quantity that cannot be stated: why, in words, and which inputs are missing. */
export interface Absent {
  readonly absent: string;
  readonly missing?: readonly string[];
}

/** An empirical quantity: the middle value, its range and what the range rests on. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly basis: string;
}

/** An input: a number, nothing yet, or the typed absence that an earlier function gave. */
export type Given = number | Absent | undefined;

/**
 * Tells a typed absence from a value.
 * @formula true when the value is an object with the key absent
 * @units none
 * @range any value
 * @source definition in this library
 */
export function isAbsent(value: unknown): value is Absent {
  return typeof value === 'object' && value !== null && 'absent' in value;
}

/**
 * Tells an estimate from a plain number or an absence.
 * @formula true when the value is an object with the keys value, low, high and basis
 * @units none
 * @range any value
 * @source definition in this library
 */
export function isEstimate(value: unknown): value is Estimate {
  return typeof value === 'object' && value !== null && 'value' in value && 'low' in value && 'high' in value;
}

/**
 * Makes a typed absence.
 * @formula { absent: reason, missing: names of the inputs that would settle it }
 * @units none
 * @range any text
 * @source definition in this library
 */
export function absent(reason: string, missing?: readonly string[]): Absent {
  return missing === undefined ? { absent: reason } : { absent: reason, missing };
}

/**
 * The middle of an estimate, so that it can go into the next formula as a plain number.
 * @formula the value of an estimate; numbers and absences pass through
 * @units those of the estimate
 * @range any result of this library
 * @source definition in this library
 */
export function middle(result: number | Estimate | Absent): number | Absent {
  return isEstimate(result) ? result.value : result;
}

/**
 * An estimate multiplied by a known factor; its range is multiplied with it.
 * @formula value k, low k, high k
 * @units those of the estimate times those of the factor
 * @range factor 0 or more; absent otherwise or when the product is too large to state
 * @source arithmetic
 */
export function scaleEstimate(estimate: Estimate | Absent, factor: Given): Estimate | Absent {
  if (isAbsent(estimate)) return estimate;
  if (isAbsent(factor)) return factor;
  if (factor === undefined || Number.isNaN(factor)) return absent('factor is not known', ['factor']);
  if (!(factor >= 0)) return absent('factor must be 0 or more');
  const scaled = { ...estimate };
  scaled.value *= factor;
  scaled.low *= factor;
  scaled.high *= factor;
  const finite = Number.isFinite(scaled.value) && Number.isFinite(scaled.low) && Number.isFinite(scaled.high);
  return finite ? scaled : absent('the result is too large to state');
}
