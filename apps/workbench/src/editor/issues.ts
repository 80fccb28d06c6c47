import { type Issue, issueText } from "@startgap/cabinet";

/** Issues by the place they are about. */
export type IssueMap = ReadonlyMap<string, readonly Issue[]>;

export function issuesByPlace(issues: readonly Issue[]): IssueMap {
  const map = new Map<string, Issue[]>();
  for (const issue of issues) map.set(issue.path, [...(map.get(issue.path) ?? []), issue]);
  return map;
}

/** True for an issue at a place or inside it. */
export const isInside = (path: string, place: string): boolean =>
  path === place || path.startsWith(`${place}.`) || path.startsWith(`${place}[`);

/** Words of an issue beside its field: the reader's own, without the place, which is where they stand. */
export const issueWords = (issue: Issue): string => issueText({ ...issue, path: "" });
