import {
  layoutPedigree,
  type PedigreeScene,
  type SceneLink,
  type SceneNode,
  type ScenePoint,
  type SliceFish,
} from '@linewright/pedigree-layout';
import { escaped } from './html.js';

const SYMBOL = 22;
const EDGE = 12;

const pathOf = (points: readonly ScenePoint[]): string =>
  points.map(({ x, y }, k) => `${k === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

/** Relatives are joined by a double line. */
const line = (points: readonly ScenePoint[], doubled: boolean): string => {
  const path = pathOf(points);
  return doubled
    ? `<path class="pair" d="${path}"/><path class="gap" d="${path}"/>`
    : `<path d="${path}"/>`;
};

const linkLine = ({ points, kind, related }: SceneLink): string =>
  line(points, related && kind === 'parent');

/** Square for a male, circle for a female, diamond where the sex is not known: the standard nomenclature of human pedigrees (Bennett et al. 2008, from memory). */
const symbolOf = ({ x, y }: ScenePoint, sex: string): string => {
  const half = SYMBOL / 2;
  if (sex === 'male')
    return `<rect x="${x - half}" y="${y - half}" width="${SYMBOL}" height="${SYMBOL}"/>`;
  if (sex === 'female') return `<circle cx="${x}" cy="${y}" r="${half}"/>`;
  return `<path class="shape" d="M${x} ${y - half}L${x + half} ${y}L${x} ${y + half}L${x - half} ${y}Z"/>`;
};

const words = ({ x, y }: ScenePoint, lines: readonly string[]): string =>
  lines
    .map((text, k) => `<text x="${x}" y="${y + SYMBOL / 2 + 13 + 12 * k}">${escaped(text)}</text>`)
    .join('');

const nodeOf = (node: SceneNode): string => {
  const name =
    node.kind === 'fold'
      ? `${node.count} young: ${node.males} m, ${node.females} f`
      : node.tag.slice(0, 14);
  const sex = node.kind === 'fold' ? 'unknown' : node.sex;
  const title =
    node.kind === 'fold' ? node.memberTags.join(', ') : [node.tag, ...node.label].join(', ');
  return `<g><title>${escaped(title)}</title>${symbolOf(node.symbol, sex)}${words(node.symbol, [name])}</g>`;
};

const svgOf = (scene: PedigreeScene): string => {
  const { x, y, width, height } = scene.bounds;
  const box = [x - EDGE, y - EDGE, width + 2 * EDGE, height + 2 * EDGE];
  const matings = scene.matings.map((mating) => line(mating.line, mating.related));
  return `<svg role="img" aria-label="Pedigree" viewBox="${box.map((n) => n.toFixed(1)).join(' ')}" width="${box[2]!.toFixed(0)}" height="${box[3]!.toFixed(0)}">
${[...scene.links.map(linkLine), ...matings, ...scene.nodes.map(nodeOf)].join('\n')}
</svg>`;
};

/** The pedigree of all the given fish as SVG; nothing of none. Cost: that of the layout. */
export const pedigreeSvg = (slice: readonly SliceFish[]): string => {
  const [first] = slice;
  if (first === undefined) return '';
  return svgOf(
    layoutPedigree(slice, {
      ...{ focusId: first.id, scope: 'all', nodeWidth: 92, symbolSize: SYMBOL },
    }),
  );
};
