/**
 * Which of many boxes come near each other: all pairs at once.
 *
 * Boxes given in an order in which neighbours lie near each other are packed into a tree by eights, and the tree is
 * joined with itself from its root down: only where two nodes come near are their children held against each other
 * (T. Brinkhoff, H.-P. Kriegel and B. Seeger, Efficient processing of spatial joins using R-trees, SIGMOD 1993).
 * So a pair is met once, and what a search for each box would ask of the upper nodes again and again is asked once.
 *
 * Each thing has two boxes, one of them in a turned frame: what bulges away from another's box may leave that one. Most
 * pairs are told apart by boxes rounded to 15 bits, of which one subtraction of integers compares two numbers at a time
 * (L. Lamport, Multiple byte processing with full-word instructions, Communications of the ACM 18, 1975); those that are
 * not are held against each other as they are.
 */

/** Children of a node: a power of two, so that going up and down is a shift. */
const fanBits = 3;
const fan = 1 << fanBits;

/** Numbers of a node: the least of x and y, the most of both, and the same in the turned frame. */
const sides = 8;
/** The most that 15 bits hold, and the bits above two such numbers in one: subtracted from with them set, they stay set where the number is not less. */
const most15 = 0x7fff;
const notLess = 0x80008000 | 0;

/** Takes the numbers of two boxes; false ends the search. */
type Visit = (a: number, b: number) => boolean;

export class BoxPairs {
  /** Boxes of all nodes, level by level: those given, in their order, then what lies round each eight of them, and so on. */
  private readonly boxes: Float64Array;
  /** The same rounded, two numbers in one; what is most is moved out by `withinMm` first. */
  private readonly rounded: Int32Array;
  /** The number of the first node of each level, and of the end. */
  private readonly levels: number[] = [0];

  /** `upright` and `turned` hold minX, minY, maxX, maxY of each, in two frames; `order` their numbers. */
  constructor(
    upright: Float64Array,
    turned: Float64Array,
    private readonly order: ArrayLike<number>,
    private readonly withinMm: number,
  ) {
    for (let n = order.length; ; n = (n + fan - 1) >> fanBits) {
      this.levels.push(this.levels[this.levels.length - 1] + n);
      if (n <= 1) break;
    }
    const boxes = new Float64Array(sides * this.levels[this.levels.length - 1]);
    for (let i = 0; i < order.length; i++) {
      const box = 4 * order[i];
      for (let side = 0; side < 4; side++) {
        boxes[sides * i + side] = upright[box + side];
        boxes[sides * i + 4 + side] = turned[box + side];
      }
    }
    this.boxes = boxes;
    for (let level = 1; level + 1 < this.levels.length; level++) this.pack(level);
    this.rounded = this.round();
  }

  private pack(level: number): void {
    const { boxes, levels } = this;
    for (let node = levels[level]; node < levels[level + 1]; node++) {
      const first = this.firstChild(level, node);
      const beyond = Math.min(first + fan, levels[level]);
      for (let side = 0; side < sides; side++) {
        let most = boxes[sides * first + side];
        for (let child = first + 1; child < beyond; child++) {
          const value = boxes[sides * child + side];
          most = side & 2 ? Math.max(most, value) : Math.min(most, value);
        }
        boxes[sides * node + side] = most;
      }
    }
  }

  /** What is not less is not less when rounded: boxes that come near do so here, and a few others. */
  private round(): Int32Array {
    const { boxes, withinMm } = this;
    const rounded = new Uint16Array(boxes.length);
    const root = boxes.length - sides;
    for (let side = 0; side < sides; side++) {
      const least = boxes[root + (side & ~2)];
      const scale = most15 / (boxes[root + (side | 2)] + withinMm - least || 1);
      const outMm = side & 2 ? withinMm : 0;
      for (let i = side; i < boxes.length; i += sides) rounded[i] = (boxes[i] + outMm - least) * scale;
    }
    return new Int32Array(rounded.buffer);
  }

  /** Visits each pair that comes within `withinMm` of each other in both frames once; false where the search was ended. */
  visit(visit: Visit): boolean {
    const top = this.levels.length - 2;
    return top === 0 || this.join(top, this.levels[top], this.levels[top], visit);
  }

  /** Joins what lies under two nodes of a level, or under one with itself. */
  private join(level: number, a: number, b: number, visit: Visit): boolean {
    const { rounded, levels, order } = this;
    const firstA = this.firstChild(level, a);
    const firstB = this.firstChild(level, b);
    const beyondA = Math.min(firstA + fan, levels[level]);
    const beyondB = Math.min(firstB + fan, levels[level]);
    for (let i = firstA; i < beyondA; i++) {
      const least = rounded[4 * i];
      const most = rounded[4 * i + 1] | notLess;
      const leastTurned = rounded[4 * i + 2];
      const mostTurned = rounded[4 * i + 3] | notLess;
      if (((most - rounded[4 * b]) & ((rounded[4 * b + 1] | notLess) - least) & notLess) !== notLess)
        continue;
      // Of a node with itself each pair once; a box does not come near itself.
      for (let j = a !== b ? firstB : level === 1 ? i + 1 : i; j < beyondB; j++) {
        const near =
          (most - rounded[4 * j]) &
          ((rounded[4 * j + 1] | notLess) - least) &
          (mostTurned - rounded[4 * j + 2]) &
          ((rounded[4 * j + 3] | notLess) - leastTurned);
        if (
          (near & notLess) !== notLess ||
          !(this.meet(sides * i, sides * j) && this.meet(sides * i + 4, sides * j + 4))
        )
          continue;
        const goesOn = level === 1 ? visit(order[i], order[j]) : this.join(level - 1, i, j, visit);
        if (!goesOn) return false;
      }
    }
    return true;
  }

  /** Do the boxes whose numbers begin there come near each other? */
  private meet(p: number, q: number): boolean {
    const { boxes, withinMm } = this;
    return (
      boxes[p] - withinMm <= boxes[q + 2] &&
      boxes[p + 1] - withinMm <= boxes[q + 3] &&
      boxes[p + 2] + withinMm >= boxes[q] &&
      boxes[p + 3] + withinMm >= boxes[q + 1]
    );
  }

  private firstChild(level: number, node: number): number {
    return this.levels[level - 1] + ((node - this.levels[level]) << fanBits);
  }
}
