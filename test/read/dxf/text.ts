/** DXF text for tests: group codes and values in turn, as the DXF Reference has them. */

export type Tag = readonly [code: number, value: number | string];

export function tagged(...tags: readonly Tag[]): string {
  return tags.map(([code, value]) => `${code}\n${value}\n`).join('');
}

export function section(name: string, body: string): string {
  return tagged([0, 'SECTION'], [2, name]) + body + tagged([0, 'ENDSEC']);
}

interface Parts {
  readonly header?: string;
  readonly tables?: string;
  readonly blocks?: string;
}

/** A whole drawing, in millimetres unless its header says otherwise. */
export function dxf(
  entities: string,
  { header = tagged([9, '$INSUNITS'], [70, 4]), ...rest }: Parts = {},
): string {
  const { tables = '', blocks = '' } = rest;
  return (
    section('HEADER', header) +
    section('TABLES', tables) +
    section('BLOCKS', blocks) +
    section('ENTITIES', entities) +
    tagged([0, 'EOF'])
  );
}

export function line(
  x1: number | string,
  y1: number,
  x2: number,
  y2: number,
  ...more: readonly Tag[]
): string {
  return tagged([0, 'LINE'], [8, '0'], [10, x1], [20, y1], [11, x2], [21, y2], ...more);
}

export function insert(name: string, ...more: readonly Tag[]): string {
  return tagged([0, 'INSERT'], [8, '0'], [2, name], [10, 0], [20, 0], ...more);
}

export function block(name: string, body: string, ...more: readonly Tag[]): string {
  return tagged([0, 'BLOCK'], [2, name], [10, 0], [20, 0], ...more) + body + tagged([0, 'ENDBLK']);
}

/** A row of the layer table; 1 is frozen, a negative colour is off. */
export function layer(name: string, flags: number, colour = 7): string {
  return tagged([0, 'LAYER'], [2, name], [70, flags], [62, colour]);
}
