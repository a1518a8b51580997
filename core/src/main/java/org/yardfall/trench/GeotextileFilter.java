package org.yardfall.trench;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.yardfall.site.Grading;
import org.yardfall.site.Soil.GrainSizes;

/**
 * Whether a geotextile suits the soil it lies against, by two sets of criteria side by side.
 *
 * <ul>
 *   <li>AASHTO M 288, subsurface drainage: by the soil's share finer than 0.075 mm, below 15 %, to
 *       50 %, above: permittivity at least 0.5, 0.2, 0.1 1/s; opening at most 0.43, 0.25, 0.22 mm.
 *   <li>FHWA (Holtz, Christopher & Berg; criteria of Christopher & Holtz 1985): retention O95 ≤ B
 *       d85, with B by the coefficient of uniformity where less than half is fines (1 up to 2, Cu/2
 *       to 4, 8/Cu to 8, else 1), else 1 for woven and 1.8 for non-woven and no more than 0.3 mm;
 *       permeability at least that of the soil, ten times where critical; against clogging O95 ≥ 3
 *       d15 where Cu is above 3, and a porosity of 50 % (non-woven) or open area of 4 % (woven). B
 *       between Cu 2 and 8 and the porosity are from memory; the rest was read.
 *   <li>UFC 3-270-04: not against soils of which 85 % or more are fines.
 * </ul>
 */
public final class GeotextileFilter {

  private static final String M288 = "AASHTO M 288, subsurface drainage";
  private static final String FHWA = "FHWA geosynthetics manual, after Christopher & Holtz 1985";

  private GeotextileFilter() {}

  /** Rows of AASHTO M 288, by the soil's share of fines. */
  public enum Row {
    /** Less than 15 % fines. */
    COARSE(0.5, 0.43),
    /** 15 to 50 % fines. */
    MIXED(0.2, 0.25),
    /** More than 50 % fines. */
    FINE(0.1, 0.22);

    private final double permittivityS;
    private final double openingMm;

    Row(double permittivityS, double openingMm) {
      this.permittivityS = permittivityS;
      this.openingMm = openingMm;
    }

    /** Least permittivity in 1/s. */
    public double leastPermittivityS() {
      return permittivityS;
    }

    /** Greatest apparent opening size in millimetres. */
    public double mostOpeningMm() {
      return openingMm;
    }

    /** The row of a soil with the given share of fines. */
    public static Row of(double finesShare) {
      return finesShare < 0.15 ? COARSE : finesShare <= 0.50 ? MIXED : FINE;
    }
  }

  /** FHWA's factor B: how many times d85 the opening may be. */
  public static double retention(GrainSizes soil, boolean woven) {
    if (soil.finesShare() >= 0.5) {
      return woven ? 1 : 1.8;
    }
    double cu = soil.uniformity();
    if (cu <= 2 || cu >= 8) {
      return 1;
    }
    return cu <= 4 ? 0.5 * cu : 8 / cu;
  }

  /**
   * Every criterion.
   *
   * @param fabric the geotextile
   * @param soil the soil's grain sizes
   * @param conductivityMS the soil's conductivity in m/s, where known
   * @param critical whether failure would be costly, as beside a building
   */
  public static List<FilterCheck> check(
      Geotextile fabric, GrainSizes soil, OptionalDouble conductivityMS, boolean critical) {
    Grading.checked(soil);
    Row row = Row.of(soil.finesShare());
    List<FilterCheck> checks = new ArrayList<>();
    checks.add(
        FilterCheck.atMost("fabric opening", fabric.openingMm(), row.mostOpeningMm(), "mm", M288));
    checks.add(
        FilterCheck.atLeast(
            "fabric permittivity", fabric.permittivityS(), row.leastPermittivityS(), "1/s", M288));
    double held = retention(soil, fabric.woven()) * soil.d85Mm();
    checks.add(
        FilterCheck.atMost(
            "fabric holds the soil, O95",
            fabric.openingMm(),
            soil.finesShare() >= 0.5 ? Math.min(0.3, held) : held,
            "mm",
            FHWA));
    if (conductivityMS.isPresent()) {
      checks.add(
          FilterCheck.atLeast(
              "fabric lets the water through, permeability",
              fabric.permeabilityMS(),
              (critical ? 10 : 1) * conductivityMS.getAsDouble(),
              "m/s",
              FHWA));
    }
    if (soil.uniformity() > 3) {
      checks.add(
          FilterCheck.atLeast(
              "fabric does not clog, O95", fabric.openingMm(), 3 * soil.d15Mm(), "mm", FHWA));
    }
    checks.add(
        FilterCheck.atLeast(
            fabric.woven() ? "fabric does not clog, open area" : "fabric does not clog, porosity",
            fabric.openShare(),
            fabric.woven() ? 0.04 : 0.5,
            "",
            FHWA));
    checks.add(
        FilterCheck.atMost(
            "soil is not too fine for fabric alone, share of fines",
            soil.finesShare(),
            0.85,
            "",
            "UFC 3-270-04, 12.5"));
    return List.copyOf(checks);
  }
}
