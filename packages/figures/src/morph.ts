/** Turn one drawn tree into another by touching only what differs: the page then lays out only that. */

/**
 * Make the children of `old` equal to those of `fresh`, keeping every element that stands in the same place with the
 * same name. `fresh` is used up. Checked by test/morph.test.ts.
 */
export function morphChildren(old: Element, fresh: Element): void {
  let there = old.firstChild;
  let wanted = fresh.firstChild;
  while (wanted !== null) {
    const next = wanted.nextSibling;
    if (there === null) old.appendChild(wanted);
    else {
      const after = there.nextSibling;
      morphNode(old, there, wanted);
      there = after;
    }
    wanted = next;
  }
  while (there !== null) {
    const after = there.nextSibling;
    old.removeChild(there);
    there = after;
  }
}

const elementNode = 1;

function morphNode(parent: Element, old: ChildNode, fresh: ChildNode): void {
  if (old.nodeName !== fresh.nodeName) parent.replaceChild(fresh, old);
  else if (old.nodeType === elementNode) {
    morphAttributes(old as Element, fresh as Element);
    morphChildren(old as Element, fresh as Element);
  } else if (old.nodeValue !== fresh.nodeValue) old.nodeValue = fresh.nodeValue;
}

function morphAttributes(old: Element, fresh: Element): void {
  for (const { name, value } of fresh.attributes)
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  if (old.attributes.length === fresh.attributes.length) return;
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
}
