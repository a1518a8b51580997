package org.yardfall.trench;

import java.util.ArrayList;
import java.util.List;
import org.yardfall.site.Grading;
import org.yardfall.site.Soil.GrainSizes;

/**
 * Whether stone keeps out of a pipe's openings, and whether it keeps a soil back where no fabric is
 * between them.
 *
 * <ul>
 *   <li>Openings: D85 of the stone over the slot's width above 1.2, over the hole's diameter above
 *       1.0 (UFC 3-270-04, 12.5.2.2). The finest stone within the size's limits is checked.
 *   <li>Soil held: D15 of the stone at most 5 times d85 of the soil (Terzaghi; UFC 3-270-04). The
 *       coarsest stone within the limits is checked.
 *   <li>Water let through: D15 of the stone at least 5 times d15 of the soil (UFC 3-270-04).
 *   <li>Gradings alike: D15 of the stone at most 40 times d15 of the soil (FHWA).
 * </ul>
 */
public final class StoneFilter {

  private static final String UFC = "UFC 3-270-04, 12.5.2.2";

  private StoneFilter() {}

  /**
   * Stone against a pipe's openings.
   *
   * @param slot whether they are slots, else holes
   * @param openingMm a slot's width or a hole's diameter in millimetres, above 0
   */
  public static FilterCheck againstOpenings(StoneSize stone, boolean slot, double openingMm) {
    return FilterCheck.atLeast(
        "stone against the pipe's " + (slot ? "slots" : "holes") + ", D85 / opening",
        stone.finest().sizeMm(0.85) / openingMm,
        slot ? 1.2 : 1.0,
        "",
        UFC);
  }

  /** Stone against soil without fabric between them. */
  public static List<FilterCheck> againstSoil(StoneSize stone, GrainSizes soil) {
    Grading.checked(soil);
    List<FilterCheck> checks = new ArrayList<>();
    double coarse15 = stone.coarsest().sizeMm(0.15);
    double fine15 = stone.finest().sizeMm(0.15);
    checks.add(
        FilterCheck.atMost(
            "stone without fabric holds the soil, D15 / d85",
            coarse15 / soil.d85Mm(),
            5,
            "",
            UFC + " (Terzaghi)"));
    checks.add(
        FilterCheck.atLeast(
            "stone without fabric lets the water through, D15 / d15",
            fine15 / soil.d15Mm(),
            5,
            "",
            UFC));
    checks.add(
        FilterCheck.atMost(
            "stone without fabric is graded like the soil, D15 / d15",
            coarse15 / soil.d15Mm(),
            40,
            "",
            "FHWA, granular filters under riprap"));
    return List.copyOf(checks);
  }
}
