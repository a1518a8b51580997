package org.yardfall.pipe;

import static org.yardfall.pipe.Pipe.Material.CORRUGATED;
import static org.yardfall.pipe.Pipe.Material.PVC;
import static org.yardfall.pipe.Pipe.Material.PVC_SEWER;
import static org.yardfall.pipe.Pipe.Material.SCHEDULE_40;
import static org.yardfall.pipe.Pipe.Material.SMOOTH_LINED;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.yardfall.pipe.Pipe.Opening;
import org.yardfall.site.DrainLimits;

/**
 * Generic pipes as the trade sells them for yards, 3 to 8 in.
 *
 * <p>Diameters: PVC by ASTM D2729 and D3034 (outside diameters 3.250, 4.215, 6.275 and 8.400 in,
 * walls from memory for D2729, diameter/35 for D3034); Schedule 40 by ASTM D1785; polyethylene
 * inside diameter as named, the openings the least inlet area of AASHTO M 252, the outside
 * diameters typical values of ASTM F405 and F667 pipe, from memory. Check the maker's sheet before
 * ordering.
 */
public final class PipeTable {

  private static final double INCH = 0.0254;

  private static final String N_CORRUGATED =
      "0.015: USDA NRCS Engineering Field Handbook ch. 14, corrugated plastic 3 to 8 in (from memory;"
          + " the least grades printed for it follow from that); FHWA HEC-22 (2009), table 7-1, gives"
          + " corrugated polyethylene of all sizes 0.018 to 0.025, which carries a sixth to two fifths"
          + " less";
  private static final String N_LINED =
      "0.012: middle of 0.009 to 0.015, smooth-lined polyethylene, FHWA HEC-22 (2009), table 7-1";
  private static final String N_PVC =
      "0.013: on the rough side of 0.009 to 0.015, smooth plastic pipe, FHWA HEC-22 (2009), table"
          + " 3-4, for a thin wall with holes";
  private static final String N_SEWER =
      "0.010: smooth plastic, minimum design value, City of Austin Drainage Criteria Manual, Table"
          + " 5-2";

  private static final List<Pipe> PIPES =
      List.of(
          slotted(CORRUGATED, 3, 3.6, 0.015, N_CORRUGATED),
          slotted(CORRUGATED, 4, 4.6, 0.015, N_CORRUGATED),
          slotted(CORRUGATED, 6, 6.9, 0.015, N_CORRUGATED),
          slotted(CORRUGATED, 8, 9.1, 0.015, N_CORRUGATED),
          solid(CORRUGATED, 3, 3, 3.6, 0.015, N_CORRUGATED),
          solid(CORRUGATED, 4, 4, 4.6, 0.015, N_CORRUGATED),
          solid(CORRUGATED, 6, 6, 6.9, 0.015, N_CORRUGATED),
          solid(CORRUGATED, 8, 8, 9.1, 0.015, N_CORRUGATED),
          slotted(SMOOTH_LINED, 4, 4.8, 0.012, N_LINED),
          slotted(SMOOTH_LINED, 6, 6.9, 0.012, N_LINED),
          slotted(SMOOTH_LINED, 8, 9.1, 0.012, N_LINED),
          solid(SMOOTH_LINED, 4, 4, 4.8, 0.012, N_LINED),
          solid(SMOOTH_LINED, 6, 6, 6.9, 0.012, N_LINED),
          solid(SMOOTH_LINED, 8, 8, 9.1, 0.012, N_LINED),
          drilled(3, 3.250 - 2 * 0.070, 3.250),
          drilled(4, 4.215 - 2 * 0.075, 4.215),
          drilled(6, 6.275 - 2 * 0.100, 6.275),
          solid(PVC, 3, 3.250 - 2 * 0.070, 3.250, 0.013, N_PVC),
          solid(PVC, 4, 4.215 - 2 * 0.075, 4.215, 0.013, N_PVC),
          solid(PVC, 6, 6.275 - 2 * 0.100, 6.275, 0.013, N_PVC),
          solid(PVC_SEWER, 4, 4.215 * (1 - 2 / 35.0), 4.215, 0.010, N_SEWER),
          solid(PVC_SEWER, 6, 6.275 * (1 - 2 / 35.0), 6.275, 0.010, N_SEWER),
          solid(PVC_SEWER, 8, 8.400 * (1 - 2 / 35.0), 8.400, 0.010, N_SEWER),
          solid(SCHEDULE_40, 3, 3.500 - 2 * 0.216, 3.500, 0.010, N_SEWER),
          solid(SCHEDULE_40, 4, 4.500 - 2 * 0.237, 4.500, 0.010, N_SEWER),
          solid(SCHEDULE_40, 6, 6.625 - 2 * 0.280, 6.625, 0.010, N_SEWER),
          solid(SCHEDULE_40, 8, 8.625 - 2 * 0.322, 8.625, 0.010, N_SEWER));

  private PipeTable() {}

  /** Every pipe of the table: by material, perforated before solid, then by size. */
  public static List<Pipe> all() {
    return PIPES;
  }

  /** The pipe of the given material and nominal size. */
  public static Optional<Pipe> find(Pipe.Material material, boolean perforated, double nominalIn) {
    return PIPES.stream()
        .filter(p -> p.material() == material && p.perforated() == perforated)
        .filter(p -> p.nominalIn() == nominalIn)
        .findFirst();
  }

  /** The next larger pipe of the same material, perforated like the given one. */
  public static Optional<Pipe> next(Pipe pipe) {
    return PIPES.stream()
        .filter(p -> p.material() == pipe.material() && p.perforated() == pipe.perforated())
        .filter(p -> p.insideM() > pipe.insideM() + 1e-6)
        .min(Comparator.comparingDouble(Pipe::insideM));
  }

  /** The given pipe without openings. */
  public static Pipe solid(Pipe pipe) {
    return new Pipe(
        pipe.material(),
        false,
        pipe.nominalIn(),
        pipe.insideM(),
        pipe.outsideM(),
        pipe.n(),
        pipe.nSource(),
        0,
        Opening.NONE,
        0);
  }

  /**
   * The perforated pipe that a site's limits mean: the one of the table whose diameters come
   * closest, with the diameters of the limits.
   */
  public static Pipe of(DrainLimits limits) {
    Pipe closest =
        PIPES.stream()
            .filter(Pipe::perforated)
            .min(
                Comparator.comparingDouble(
                    p ->
                        Math.abs(p.insideM() - limits.pipeInsideM())
                            + Math.abs(p.outsideM() - limits.pipeOutsideM())))
            .orElseThrow();
    return new Pipe(
        closest.material(),
        true,
        Math.rint(limits.pipeInsideM() / INCH),
        limits.pipeInsideM(),
        limits.pipeOutsideM(),
        closest.n(),
        closest.nSource(),
        closest.perforationM2PerM(),
        closest.opening(),
        closest.openingM());
  }

  /** The given limits with another pipe. */
  public static DrainLimits with(DrainLimits limits, Pipe pipe) {
    return limits.withPipe(pipe.outsideM(), pipe.insideM());
  }

  /**
   * AASHTO M 252, class 2 perforations: openings of at least 20 cm² per metre, 0.945 in² per foot,
   * in pipes of 4 to 10 in; slots 1/8 in wide.
   */
  private static Pipe slotted(
      Pipe.Material material, double nominalIn, double outsideIn, double n, String source) {
    double openings = 20e-4;
    return new Pipe(
        material,
        true,
        nominalIn,
        nominalIn * INCH,
        outsideIn * INCH,
        n,
        source,
        openings,
        Opening.SLOT,
        INCH / 8);
  }

  /** ASTM D2729: two rows of 1/2 in holes, 5 in apart (from memory). */
  private static Pipe drilled(double nominalIn, double insideIn, double outsideIn) {
    double hole = INCH / 2;
    double openings = 2 * Math.PI / 4 * hole * hole / (5 * INCH);
    return new Pipe(
        PVC,
        true,
        nominalIn,
        insideIn * INCH,
        outsideIn * INCH,
        0.013,
        N_PVC,
        openings,
        Opening.HOLE,
        hole);
  }

  private static Pipe solid(
      Pipe.Material material,
      double nominalIn,
      double insideIn,
      double outsideIn,
      double n,
      String source) {
    return new Pipe(
        material,
        false,
        nominalIn,
        insideIn * INCH,
        outsideIn * INCH,
        n,
        source,
        0,
        Opening.NONE,
        0);
  }
}
