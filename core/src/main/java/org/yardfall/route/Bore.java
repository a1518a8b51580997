package org.yardfall.route;

/**
 * A stretch that is bored, straight in plan and at one grade.
 *
 * @param line 0 for the main line, else the branch's number from 1, in the order of {@link
 *     Route#branches()}
 * @param fromM station in metres on that line where it begins
 * @param toM station in metres where it ends
 * @param pipes which pipes lie in it: one of the drain's size, or two smaller ones side by side,
 *     led in and out by a wye with reducers
 */
public record Bore(int line, double fromM, double toM, SlabPipes pipes) {

  /** Length in metres. */
  public double lengthM() {
    return toM - fromM;
  }
}
