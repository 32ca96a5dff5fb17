import { memo } from 'react';
import type { SceneFish, SceneFold, SceneNode } from '@linewright/pedigree-layout';
import { linesOf, shorten } from '../figures.js';
import { SEX_GLYPH, SexSymbol } from './symbols.js';
import styles from './pedigree.module.css';

export interface PedigreeNodeProps {
  readonly node: SceneNode;
  readonly down: boolean;
  readonly name: string;
  readonly tabbable: boolean;
  readonly onPath: boolean;
  readonly commonAncestor: boolean;
  readonly dead: boolean;
  readonly unknownParent: boolean;
  /** Address of a small picture. */
  readonly picture: string | undefined;
}

/** One fish, or a fold of sibs. Events are handled by the stage, which finds the node by its `data-node`. */
export const PedigreeNode = memo(function PedigreeNode(props: PedigreeNodeProps) {
  const { node, down, name, tabbable } = props;
  const classes = [
    styles['node'],
    node.kind === 'fish' && node.isFocus ? styles['node-focus'] : '',
    node.kind === 'fish' && node.planned ? styles['node-planned'] : '',
    props.unknownParent ? styles['node-unknown'] : '',
    props.onPath ? styles['node-on-path'] : '',
    tabbable ? styles['node-selected'] : '',
  ];
  const fold = node.kind === 'fold';
  return (
    <g
      className={classes.join(' ').trim()}
      data-node={node.id}
      tabIndex={tabbable ? 0 : -1}
      role={fold ? 'button' : 'link'}
      aria-label={name}
      {...(fold ? { 'aria-expanded': false } : {})}
      {...(node.kind === 'fish' && node.isFocus ? { 'aria-current': 'true' as const } : {})}
    >
      <rect
        className={styles['node-box']}
        x={node.x - node.width / 2 - 2}
        y={node.y - node.height / 2 - 3}
        width={node.width + 4}
        height={node.height + 5}
        rx={6}
      />
      {fold ? <FoldFace node={node} down={down} /> : <FishFace {...props} node={node} />}
    </g>
  );
});

function textPlace(node: SceneNode, down: boolean) {
  return down
    ? { x: node.x, y: node.symbol.y + 30, anchor: 'middle' as const }
    : { x: node.symbol.x + 21, y: node.symbol.y - node.height / 2 + 15, anchor: 'start' as const };
}

function FishFace({
  node,
  down,
  commonAncestor,
  dead,
  unknownParent,
  picture,
}: PedigreeNodeProps & { readonly node: SceneFish }) {
  const { x, y } = node.symbol;
  const text = textPlace(node, down);
  const room = Math.floor((down ? node.width : node.width - 38) / 7.2);
  // A brood that is not bred yet goes by the names of both parents.
  const names = node.planned ? linesOf(node.tag, room) : [shorten(node.tag, room)];
  return (
    <>
      {commonAncestor && (
        <SexSymbol sex={node.sex} x={x} y={y} size={35} className={styles['ancestor-ring']} />
      )}
      <SexSymbol sex={node.sex} x={x} y={y} />
      <text className={styles['glyph']} x={x} y={y + 5} textAnchor="middle">
        {node.planned ? 'n' : unknownParent ? '?' : SEX_GLYPH[node.sex]}
      </text>
      {dead && (
        <line className={styles['struck']} x1={x - 17} y1={y + 17} x2={x + 17} y2={y - 17} />
      )}
      {picture !== undefined && <NodePicture href={picture} x={x} y={y} down={down} />}
      {node.isFocus && <FocusArrow x={x - 17} y={y + 3} />}
      {names.map((line, i) => (
        <text
          key={line}
          className={styles['tag']}
          x={text.x}
          y={text.y + 13 * i}
          textAnchor={text.anchor}
        >
          {line}
        </text>
      ))}
      {node.label.map((line, i) => (
        <text
          key={i}
          className={styles['node-line']}
          x={text.x}
          y={text.y + 13 * (i + names.length)}
          textAnchor={text.anchor}
        >
          {shorten(line, room)}
        </text>
      ))}
    </>
  );
}

/** Its words are those of the node: the picture adds none. */
function NodePicture({ href, x, y, down }: NodePictureProps) {
  const place = down
    ? { x: x + 18, y: y - 15, width: 26, height: 22 }
    : { x: x - 13, y: y + 16, width: 26, height: 20 };
  return <image href={href} {...place} preserveAspectRatio="xMidYMid slice" aria-hidden="true" />;
}

interface NodePictureProps {
  readonly href: string;
  readonly x: number;
  readonly y: number;
  readonly down: boolean;
}

/** The standard points out the one the pedigree is about with an arrow from below left. */
function FocusArrow({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <path
      className={styles['focus-arrow']}
      d={`M${x - 15} ${y + 9}L${x} ${y}M${x - 7} ${y - 1}L${x} ${y}L${x - 3} ${y + 6}`}
    />
  );
}

/** Several individuals of known number: one symbol with the number inside. */
function FoldFace({ node, down }: { readonly node: SceneFold; readonly down: boolean }) {
  const { x, y } = node.symbol;
  const text = textPlace(node, down);
  const tip = 17;
  return (
    <>
      <polygon
        className={styles['symbol']}
        points={`${x},${y - tip} ${x + tip},${y} ${x},${y + tip} ${x - tip},${y}`}
      />
      <text className={styles['fold-count']} x={x} y={y + 4} textAnchor="middle">
        {node.count}
      </text>
      <text className={styles['tag']} x={text.x} y={text.y} textAnchor={text.anchor}>
        {node.count} sibs
      </text>
      <text className={styles['node-line']} x={text.x} y={text.y + 13} textAnchor={text.anchor}>
        {foldMix(node)}
      </text>
    </>
  );
}

function foldMix(node: SceneFold): string {
  const unknown = node.count - node.males - node.females;
  return [
    node.males > 0 ? `${node.males}${SEX_GLYPH.male}` : '',
    node.females > 0 ? `${node.females}${SEX_GLYPH.female}` : '',
    unknown > 0 ? `${unknown}?` : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}
