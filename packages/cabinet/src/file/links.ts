import type { Issue } from "../issue.ts";
import { nearestName } from "../nearest.ts";
import type { Link } from "../parts/kind.ts";
import { kindNamed } from "../parts/kinds.ts";
import { at } from "../shape/shape.ts";
import type { BuiltPart } from "./build.ts";

/** Every name in a part, besides that of its feeder, that is not the name of a part of the right kind. */
export function linkIssues(parts: readonly BuiltPart[]): Issue[] {
  return parts.flatMap((part) => {
    if (part.kind?.links === undefined || part.spec === undefined) return [];
    const place = at("parts", part.header.index);
    return part.kind
      .links(part.spec)
      .flatMap((link) => linkIssue(link, `${place}.${link.path}`, part, parts));
  });
}

/** A part of no known kind is given the benefit of the doubt: its kind is reported already. */
function linkIssue(link: Link, path: string, from: BuiltPart, parts: readonly BuiltPart[]): Issue[] {
  const fits = (is: string | null): boolean => {
    const kind = kindNamed(is);
    if (kind === undefined) return true;
    return link.to === "feeding" ? kind.feeds : link.to.includes(kind.is);
  };
  const found = parts.find((one) => one.name === link.name);
  const expected =
    link.to === "feeding"
      ? "the name of a part that can feed others"
      : `the name of a ${link.to.join(", a ")}`;
  if (found !== undefined) {
    if (fits(found.header.is)) return [];
    return [{ path, expected, received: `"${link.name}", which is a ${found.header.is}` }];
  }
  const able = parts.filter((one) => one !== from && fits(one.header.is)).map((one) => one.name);
  const nearest = nearestName(link.name, able);
  const issue = { path, expected, received: `"${link.name}"` };
  return [nearest === undefined ? issue : { ...issue, nearest }];
}
