/** One thing wrong with an input: where, what was found, what is accepted. Never thrown, always listed. */
export interface Issue {
  /** As "parts[4].circuit.main.r"; "" for the whole file. CSV: "line 3, column 2". */
  readonly path: string;
  /** What is accepted, with an example: `a resistance above 0, as "2.02 ohm"`. */
  readonly expected: string;
  /** What was found, as text, shortened to 80 characters. */
  readonly received: string;
  /** Nearest known name, when a name was not known. */
  readonly nearest?: string;
}

/** `parts[4].circuit.main.r: expected a resistance above 0, as "2.02 ohm"; received "-2.4 ohm"` */
export function issueText(issue: Issue): string {
  const place = issue.path === "" ? "" : `${issue.path}: `;
  const nearest = issue.nearest === undefined ? "" : `; did you mean "${issue.nearest}"?`;
  return `${place}expected ${issue.expected}; received ${issue.received}${nearest}`;
}
