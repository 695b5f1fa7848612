/** Elements as fast-xml-parser gives them in order: one key with the name and its children, beside it the attributes. */

export type XmlElement = Readonly<Record<string, unknown>>;

/** The children of the first element with this name; null where there is none. */
export function elementNamed(elements: readonly XmlElement[], name: string): readonly XmlElement[] | null {
  const [first] = childrenNamed(elements, name);
  return first === undefined ? null : (first[name] as readonly XmlElement[]);
}

export function childrenNamed(elements: readonly XmlElement[], name: string): XmlElement[] {
  return elements.filter((element) => Object.hasOwn(element, name) && Array.isArray(element[name]));
}

export function attributeOf(element: XmlElement, name: string): string | null {
  const attributes = element[':@'];
  if (typeof attributes !== 'object' || attributes === null || !Object.hasOwn(attributes, name)) return null;
  const value = (attributes as Readonly<Record<string, unknown>>)[name];
  return typeof value === 'string' ? value : null;
}

/** The text of the first element with this name, without its blanks; null where there is none or it is empty. */
export function textIn(elements: readonly XmlElement[], name: string): string | null {
  const texts = (elementNamed(elements, name) ?? []).map((child) => child['#text']);
  const text = texts.filter((one) => typeof one === 'string').join('');
  const tidy = withEntities(text).replace(/[\p{Cc}\p{Cf}]+/gu, ' ').trim().slice(0, LONGEST_TEXT);
  return tidy === '' ? null : tidy;
}

/** Null where there is no number. */
export function numberOf(elements: readonly XmlElement[], name: string): number | null {
  const text = textIn(elements, name);
  return text !== null && Number.isFinite(Number(text)) ? Number(text) : null;
}

const LONGEST_TEXT = 120;
const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** XML's own five names only; the parser leaves all entities as they are. */
function withEntities(text: string): string {
  return text.replace(/&(lt|gt|amp|quot|apos);/g, (_, name: string) => ENTITIES[name]!);
}
