/**
 * An array of zeros that holds doubles from the first moment: no later reader finds it a list of small integers, and
 * the loops over states meet one kind of array only.
 */
export function doubles(length: number): number[] {
  const array: number[] = [];
  for (let i = 0; i < length; i++) array.push(0.5);
  return array.fill(0);
}
