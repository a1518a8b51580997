package org.yardfall.trench;

import org.yardfall.site.BadInputException;
import org.yardfall.site.DrainLimits;

/**
 * The cross-section of a trench: straight sides, the pipe on a bed of stone, stone round and over
 * it up to what is put back on top, fabric wrapped round stone and pipe as one. Nothing dug goes
 * back into it.
 *
 * <p>Depths are counted from the ground to the pipe's invert; the trench itself is dug deeper by
 * the pipe's wall and the bed. Areas are m² of cross-section, that is m³ per metre of trench.
 *
 * @param widthM width in metres, more than the pipe's outside diameter
 * @param pipeOutsideM outside diameter of the pipe in metres
 * @param pipeInsideM inside diameter of the pipe in metres
 * @param bedM stone under the pipe in metres; 0 or more
 */
public record TrenchSection(double widthM, double pipeOutsideM, double pipeInsideM, double bedM) {

  /** Stone under the pipe in metres: 2 in, International Residential Code R405.1. */
  public static final double BED_M = DrainLimits.BED_M;

  /**
   * Lap of the fabric on top in metres, in a trench at least that wide: AASHTO M 288 (from memory),
   * and the upper end of the 150 to 300 mm of a regional guide to stormwater planning.
   */
  public static final double LAP_M = 0.30;

  /** Refuses a section that cannot be built. */
  public TrenchSection {
    if (!(pipeInsideM > 0) || !(pipeOutsideM >= pipeInsideM)) {
      throw new BadInputException(
          "drain.pipe",
          "the pipe's outside diameter must be no less than its inside diameter, both above 0",
          "correct the diameters");
    }
    if (!(widthM > pipeOutsideM)) {
      throw new BadInputException(
          "drain.trench-width",
          String.format(
              java.util.Locale.ROOT,
              "a pipe of %.3f m outside diameter does not fit a trench %.3f m wide",
              pipeOutsideM,
              widthM),
          "widen the trench or choose a smaller pipe");
    }
    if (!(bedM >= 0)) {
      throw new BadInputException("drain", "the bed under the pipe is negative", "give 0 or more");
    }
  }

  /** The section that the limits ask for, on a bed of {@link #BED_M}. */
  public static TrenchSection of(DrainLimits limits) {
    return new TrenchSection(
        limits.trenchWidthM(), limits.pipeOutsideM(), limits.pipeInsideM(), BED_M);
  }

  /** The same trench with another pipe in it. */
  public TrenchSection withPipe(double outsideM, double insideM) {
    return new TrenchSection(widthM, outsideM, insideM, bedM);
  }

  /** Depth in metres to which the trench is dug where the invert lies at the given depth. */
  public double dugDepthM(double depthM) {
    return depthM + (pipeOutsideM - pipeInsideM) / 2 + bedM;
  }

  /** Area of what is dug, what lies on top included; 0 where the pipe lies above the ground. */
  public double dugM2(double depthM) {
    return widthM * Math.max(0, dugDepthM(depthM));
  }

  /** Area of stone, net of the pipe; 0 where the trench is too shallow for any. */
  public double stoneM2(double depthM, Restoration restoration) {
    return Math.max(0, widthM * stoneHeightM(depthM, restoration) - pipeM2());
  }

  /** Area of what lies on top of the stone: sod put back, or pavement made good. */
  public double topM2(double depthM, Restoration restoration) {
    return widthM * Math.min(Math.max(0, dugDepthM(depthM)), restoration.thicknessM());
  }

  /** Area of the soil hauled away, as it lay in the ground; sod that goes back is not in it. */
  public double spoilM2(double depthM, Restoration restoration) {
    double keptM = restoration == Restoration.SOD ? restoration.thicknessM() : 0;
    return Math.max(0, widthM * (dugDepthM(depthM) - keptM));
  }

  /** Girth in metres of the fabric round stone and pipe, the lap on top included. */
  public double fabricM(double depthM, Restoration restoration) {
    return 2 * (widthM + Math.max(0, stoneHeightM(depthM, restoration))) + Math.min(widthM, LAP_M);
  }

  /** Area that the pipe takes from the stone, by its outside diameter. */
  public double pipeM2() {
    return Math.PI / 4 * pipeOutsideM * pipeOutsideM;
  }

  private double stoneHeightM(double depthM, Restoration restoration) {
    return dugDepthM(depthM) - restoration.thicknessM();
  }
}
