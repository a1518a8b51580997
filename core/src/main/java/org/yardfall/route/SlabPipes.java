package org.yardfall.route;

import java.util.Locale;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.pipe.TwinPipes;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Site;

/**
 * The pipes that lie under a slab: one of the drain's size, or two smaller ones side by side where
 * one would leave a belly. Lines under concrete are bored in Schedule 40 pipe ({@code common
 * practice, no source}).
 *
 * @param count how many lie side by side, 1 or more
 * @param pipe one of them, solid
 */
public record SlabPipes(int count, Pipe pipe) {

  private static final int SMALLER_IN = 4;

  /** Checks the count. */
  public SlabPipes {
    if (count < 1) {
      throw new IllegalArgumentException(count + " pipes");
    }
  }

  /** One pipe of the drain's nominal size; the drain's own, solid, where none is made in it. */
  public static SlabPipes one(DrainLimits limits) {
    return one(PipeTable.of(limits));
  }

  /** One pipe of the nominal size of the given one. */
  public static SlabPipes one(Pipe drain) {
    return new SlabPipes(
        1,
        PipeTable.find(Pipe.Material.SCHEDULE_40, false, drain.nominalIn())
            .orElseGet(() -> PipeTable.solid(drain)));
  }

  /** Two of 4 in, side by side. */
  public static SlabPipes two() {
    return new SlabPipes(
        2, PipeTable.find(Pipe.Material.SCHEDULE_40, false, SMALLER_IN).orElseThrow());
  }

  /** Fittings at the two ends of a bore: a wye and a reducer for each pipe; none for one pipe. */
  public int fittings() {
    return count == 1 ? 0 : 2 * (1 + count);
  }

  /** Whether two smaller pipes could lie where one of the drain's size does not. */
  static boolean twoMayHelp(Site site) {
    return !site.crossings().isEmpty()
        && one(site.drain()).pipe().outsideM() > two().pipe().outsideM() + 0.01;
  }

  /** What the builder is told of several pipes in place of one, in words. */
  String note(Pipe drain) {
    return String.format(
        Locale.ROOT,
        "two %.0f in pipes side by side under each slab, with a wye and reducers at both ends, where"
            + " one of %.0f in would leave a belly; together they carry %.0f %% of it",
        pipe.nominalIn(),
        drain.nominalIn(),
        100 * capacityRatio(drain));
  }

  /** What they carry together as a share of what a pipe of the drain's size carries. */
  double capacityRatio(Pipe drain) {
    return TwinPipes.capacityRatio(count, pipe, PipeTable.solid(drain));
  }

  /** What lies there, in words. */
  public String words() {
    return count == 1
        ? pipe.words()
        : String.format(Locale.ROOT, "%d pipes side by side, each %s", count, pipe.words());
  }
}
