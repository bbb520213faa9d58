/**
 * Which of many boxes come near each other: all pairs at once.
 *
 * Boxes given in an order in which neighbours lie near each other are packed into a tree by eights, and the tree is
 * joined with itself from its root down: only where two nodes come near are their children held against each other
 * (T. Brinkhoff, H.-P. Kriegel and B. Seeger, Efficient processing of spatial joins using R-trees, SIGMOD 1993).
 * So a pair is met once, and what a search for each box would ask of the upper nodes again and again is asked once.
 */

/** Children of a node: a power of two, so that going up and down is a shift. */
const fanBits = 3;

/** Takes the numbers of two boxes; false ends the search. */
type Visit = (a: number, b: number) => boolean;

export class BoxPairs {
  /** Boxes of all nodes, level by level: those given, in their order, then what lies round each eight of them, and so on. */
  private readonly boxes: Float64Array;
  /** The number of the first node of each level, and of the end. */
  private readonly levels: number[] = [0];

  /** `boxes` holds minX, minY, maxX, maxY each; `order` their numbers. */
  constructor(
    boxes: Float64Array,
    private readonly order: ArrayLike<number>,
  ) {
    for (let n = order.length; ; n = (n + (1 << fanBits) - 1) >> fanBits) {
      this.levels.push(this.levels[this.levels.length - 1] + n);
      if (n <= 1) break;
    }
    this.boxes = new Float64Array(4 * this.levels[this.levels.length - 1]);
    for (let i = 0; i < order.length; i++)
      for (let side = 0; side < 4; side++) this.boxes[4 * i + side] = boxes[4 * order[i] + side];
    for (let level = 1; level + 1 < this.levels.length; level++) this.pack(level);
  }

  private pack(level: number): void {
    const { boxes, levels } = this;
    for (let node = levels[level]; node < levels[level + 1]; node++) {
      const first = this.firstChild(level, node);
      const beyond = Math.min(first + (1 << fanBits), levels[level]);
      for (let side = 0; side < 4; side++) {
        let most = boxes[4 * first + side];
        for (let child = first + 1; child < beyond; child++) {
          const value = boxes[4 * child + side];
          most = side < 2 ? Math.min(most, value) : Math.max(most, value);
        }
        boxes[4 * node + side] = most;
      }
    }
  }

  /** Visits each pair of boxes that come within `withinMm` of each other once; false where the search was ended. */
  visit(withinMm: number, visit: Visit): boolean {
    const top = this.levels.length - 2;
    return top === 0 || this.join(top, this.levels[top], this.levels[top], withinMm, visit);
  }

  /** Joins what lies under two nodes of a level, or under one with itself. */
  private join(level: number, a: number, b: number, withinMm: number, visit: Visit): boolean {
    const { boxes, levels, order } = this;
    const fan = 1 << fanBits;
    const firstA = this.firstChild(level, a);
    const firstB = this.firstChild(level, b);
    const beyondA = Math.min(firstA + fan, levels[level]);
    const beyondB = Math.min(firstB + fan, levels[level]);
    for (let i = firstA; i < beyondA; i++) {
      const minX = boxes[4 * i] - withinMm;
      const minY = boxes[4 * i + 1] - withinMm;
      const maxX = boxes[4 * i + 2] + withinMm;
      const maxY = boxes[4 * i + 3] + withinMm;
      if (minX > boxes[4 * b + 2] || minY > boxes[4 * b + 3]) continue;
      if (maxX < boxes[4 * b] || maxY < boxes[4 * b + 1]) continue;
      // Of a node with itself each pair once; a box does not come near itself.
      const from = a !== b ? firstB : level === 1 ? i + 1 : i;
      for (let j = from; j < beyondB; j++) {
        if (minX > boxes[4 * j + 2] || minY > boxes[4 * j + 3]) continue;
        if (maxX < boxes[4 * j] || maxY < boxes[4 * j + 1]) continue;
        const goesOn = level === 1 ? visit(order[i], order[j]) : this.join(level - 1, i, j, withinMm, visit);
        if (!goesOn) return false;
      }
    }
    return true;
  }

  private firstChild(level: number, node: number): number {
    return this.levels[level - 1] + ((node - this.levels[level]) << fanBits);
  }
}
