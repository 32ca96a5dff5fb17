import { type FishForm, fishForm } from './fish-form.js';
import type { FishLook } from './fish-look.js';

/** One layer of paint: where, filled or drawn along. Layers stand in their order, the lowest first. */
export interface Layer {
  readonly part: string;
  readonly d: string;
  readonly fill?: string;
  readonly stroke?: string;
  readonly width?: number;
  readonly opacity: number;
  /** Drawn as wide in a small picture as in a large one. */
  readonly isEdge?: true;
}

/** Colours of our own choosing, for telling looks apart on light and on dark; no fish was measured. */
const GROUND = {
  dark: '#5b4038',
  pale: '#f3dccb',
  bright: '#a9714f',
  black: '#1d1b21',
  albino: '#fbeee8',
} as const;
const RED = {
  red: { deep: '#b3201f', pale: '#e0655a' },
  yellow: { deep: '#d9a514', pale: '#f2d36b' },
  orange: { deep: '#d9641c', pale: '#f0a066' },
} as const;
const SHINE = {
  unknown: '#86a9b3',
  turquoise: '#19a58d',
  royal: '#2d52c8',
  steel: '#8aa0b6',
} as const;
const METAL = {
  unknown: '#9a9a86',
  turquoise: '#4d9c3c',
  royal: '#22857f',
  steel: '#b87646',
} as const;
const CHALK = '#ffffff';
const BARE = '#f6eee8';
/** Else a black fish would be lost on a dark page, and a pale one on a light one. */
const EDGE = { stroke: 'currentColor', width: 1, opacity: 0.55, isEdge: true } as const;
const RED_REACH = { fins: 0.85, all: 0.9, little: 0.35, fading: 0.18 } as const;

/** How a fish is painted; `fine` with rays and scales, which are lost in a small picture. */
export function fishLayers(look: FishLook, fine: boolean): Layer[] {
  const form = fishForm(look);
  return [
    ...finLayers(form, look, fine),
    ...bodyLayers(form, look, fine),
    ...faceLayers(form, look, fine),
  ];
}

const isPale = ({ ground }: FishLook): boolean => ground === 'pale' || ground === 'albino';

const redOf = (look: FishLook): string => RED[look.red][isPale(look) ? 'pale' : 'deep'];

/** Black lies over red: little of it is seen on a melano. */
const redOpacity = (look: FishLook): number =>
  RED_REACH[look.redReach] * (look.ground === 'black' ? 0.12 : 1);

function finLayers(form: FishForm, look: FishLook, fine: boolean): Layer[] {
  const whole = `${form.fins}${form.ventrals}`;
  // Of banded fins only the inner part is coloured.
  const coloured = look.banded ? `${form.innerFins}${form.ventrals}` : whole;
  const layers: (Layer | false)[] = [
    { part: 'fins', d: whole, fill: look.banded ? BARE : GROUND[look.ground], opacity: 1 },
    look.banded && { part: 'fins', d: coloured, fill: GROUND[look.ground], opacity: 1 },
    { part: 'red of the fins', d: coloured, fill: redOf(look), opacity: redOpacity(look) },
    look.shineReach === 'spread' && {
      ...{ part: 'shine of the fins', d: form.innerFins, fill: SHINE[look.shine] },
      opacity: 0.8,
    },
    look.metal !== 'none' && {
      ...{ part: 'metal of the fins', d: form.innerFins, fill: METAL[look.shine] },
      opacity: look.metal === 'full' ? 0.7 : 0.35,
    },
    look.chalk !== 'none' && {
      ...{ part: 'chalk of the fins', d: coloured, fill: CHALK },
      opacity: look.chalk === 'strong' ? 0.45 : 0.2,
    },
    fine && { part: 'rays', d: form.rays, stroke: '#000000', width: 0.5, opacity: 0.25 },
    {
      ...{ part: 'shine along the rays', d: form.innerRays, stroke: SHINE[look.shine], width: 1.1 },
      opacity: fine || look.shineReach === 'few' ? 0.75 : 0,
    },
    look.patches && { part: 'patches', d: form.patchesOfFins, fill: BARE, opacity: 0.9 },
    look.spot && { part: 'spot', d: form.spot, fill: '#0d0c0f', opacity: 1 },
    look.spot && { part: 'ring of the spot', d: form.spot, stroke: BARE, width: 1.2, opacity: 0.9 },
    { part: 'edge of the fins', d: whole, ...EDGE },
  ];
  return layers.filter((layer) => layer !== false && layer.opacity > 0) as Layer[];
}

function bodyLayers(form: FishForm, look: FishLook, fine: boolean): Layer[] {
  const layers: (Layer | false)[] = [
    { part: 'body', d: form.body, fill: GROUND[look.ground], opacity: 1 },
    look.redReach === 'all' && {
      ...{ part: 'red of the body', d: form.body, fill: redOf(look), opacity: redOpacity(look) },
    },
    look.shineReach === 'spread' && {
      ...{ part: 'shine of the body', d: form.flank, fill: SHINE[look.shine], opacity: 0.8 },
    },
    look.metal !== 'none' && {
      ...{ part: 'metal of the body', d: form.body, fill: METAL[look.shine] },
      opacity: look.metal === 'full' ? 0.75 : 0.4,
    },
    look.chalk !== 'none' && {
      ...{ part: 'chalk of the body', d: form.body, fill: CHALK },
      opacity: look.chalk === 'strong' ? 0.6 : 0.28,
    },
    (fine || look.shineReach === 'few') && {
      part: 'scales',
      d: form.scales,
      stroke: look.shineReach === 'few' ? SHINE[look.shine] : '#000000',
      width: look.shineReach === 'few' ? 1.3 : 0.6,
      opacity: look.shineReach === 'few' ? 0.8 : 0.35,
    },
    look.patches && { part: 'patches', d: form.patchesOfBody, fill: BARE, opacity: 0.9 },
    { part: 'edge of the body', d: form.body, ...EDGE },
  ];
  return layers.filter((layer) => layer !== false) as Layer[];
}

function faceLayers(form: FishForm, look: FishLook, fine: boolean): Layer[] {
  const dot = (r: number): string => `M36 ${56 - r}a${r} ${r} 0 1 0 0.1 0Z`;
  return [
    {
      part: 'pectoral fin',
      d: form.pectoral,
      fill: isPale(look) ? BARE : redOf(look),
      opacity: 0.55,
    },
    ...(fine
      ? [
          { part: 'edge of the pectoral fin', d: form.pectoral, ...EDGE },
          { part: 'gill cover', d: form.gill, ...EDGE },
          { part: 'mouth', d: form.mouth, ...EDGE },
        ]
      : []),
    { part: 'eye', d: dot(4), fill: look.ground === 'albino' ? '#d9343a' : '#e9dfc9', opacity: 1 },
    {
      part: 'pupil',
      d: dot(2.2),
      fill: look.ground === 'albino' ? '#7d1418' : '#111013',
      opacity: 1,
    },
  ];
}
