import type { Finding } from "@keelcut/geometry";

/** What makes two findings the same. */
export function findingKey({ id, place, message }: Finding): string {
  return `${id} ${place} ${message}`;
}

/** Each finding once, in their order. */
export function distinctFindings(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter((each) => {
    const key = findingKey(each);
    const known = seen.has(key);
    seen.add(key);
    return !known;
  });
}
