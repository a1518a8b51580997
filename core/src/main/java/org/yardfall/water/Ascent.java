package org.yardfall.water;

/**
 * The way up from a pit through the depressions that hold it, in long steps (skew-binary jumps,
 * Myers 1983): any ancestor is found in a logarithm of the nesting's depth.
 */
final class Ascent {

  // Of each node side by side, so that a step up waits for memory once.
  private static final int STRIDE = 4;
  private static final int SPILL = 0;
  private static final int JUMP = 1;
  private static final int PARENT = 2;
  private static final int DEPTH = 3;

  private final int[] step;

  Ascent(DepressionHierarchy depressions) {
    int nodes = depressions.nodes();
    step = new int[nodes * STRIDE];
    for (int n = nodes - 1; n >= depressions.firstNode(); n--) {
      int parent = depressions.parent(n);
      int at = n * STRIDE;
      step[at + SPILL] = Float.floatToRawIntBits(depressions.spillM(n));
      step[at + PARENT] = parent;
      step[at + JUMP] = parent == 0 ? n : parent;
      if (parent != 0) {
        int above = parent * STRIDE;
        int far = step[above + JUMP] * STRIDE;
        step[at + DEPTH] = step[above + DEPTH] + 1;
        if (step[above + DEPTH] - step[far + DEPTH]
            == step[far + DEPTH] - step[step[far + JUMP] * STRIDE + DEPTH]) {
          step[at + JUMP] = step[far + JUMP];
        }
      }
    }
  }

  /**
   * The smallest depression holding a pit whose water, when it spills, stands above a height.
   *
   * @param height in metres, below the spill of the root
   */
  int over(int pit, float height) {
    int at = pit * STRIDE;
    while (spillM(at) <= height) {
      int far = step[at + JUMP] * STRIDE;
      at = spillM(far) <= height ? far : step[at + PARENT] * STRIDE;
    }
    return at / STRIDE;
  }

  private float spillM(int at) {
    return Float.intBitsToFloat(step[at + SPILL]);
  }
}
