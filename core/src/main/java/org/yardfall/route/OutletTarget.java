package org.yardfall.route;

import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.BadInputException;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;

/**
 * Where a pipe must arrive.
 *
 * @param id the outlet's id
 * @param at its place in metres of the working plane
 * @param invertM lowest elevation in metres at which the pipe may arrive
 * @param end how the pipe ends there
 */
public record OutletTarget(String id, Coordinate at, double invertM, End end) {

  /** How a pipe ends. */
  public enum End {
    /** In the open (daylight, ditch, waterway, street): no cover is asked in its last metres. */
    OPEN,
    /** In the wall of a basin: neither cover nor depth is asked just there. */
    WALL,
    /** At another pipe: as everywhere along the line. */
    PIPE
  }

  /** A target in the open or at a wall. */
  public OutletTarget(String id, Coordinate at, double invertM, boolean openEnd) {
    this(id, at, invertM, openEnd ? End.OPEN : End.WALL);
  }

  /** Whether the pipe comes out into the open. */
  public boolean openEnd() {
    return end == End.OPEN;
  }

  /** The line as it ends here: with the places where nothing is asked. */
  GroundLine ending(GroundLine line, RouteGround ground) {
    return switch (end) {
      case OPEN -> comingOut(line, ground);
      case WALL -> line.endingFree(0);
      case PIPE -> line;
    };
  }

  /**
   * In the last metres no cover is asked, but the pipe lies in the ground; out of it, where the
   * bank falls away before the outlet, no higher than the outlet and the least grade make it.
   */
  private GroundLine comingOut(GroundLine line, RouteGround ground) {
    DrainLimits limits = ground.site().drain();
    double outside = Math.max(limits.pipeOutsideM(), ground.settings().crossingOutsideM());
    return line.endingFree(ground.settings().daylightWithinM(ground.frame().cellM()))
        .lowWhereFree(invertM + outside, limits.minGrade());
  }

  /**
   * The target that an outlet makes; its invert, where none is stated, is the ground there.
   *
   * @throws BadInputException where no invert is stated and the ground there is not known
   */
  public static OutletTarget of(Outlet outlet, RouteGround ground) {
    double there = ground.ground().bilinear(outlet.at().x, outlet.at().y);
    if (outlet.invertM().isEmpty() && Double.isNaN(there)) {
      throw new BadInputException(
          "outlet " + outlet.id(),
          String.format(
              Locale.ROOT,
              "has no invert, and the ground at %.2f, %.2f is not known",
              outlet.at().x,
              outlet.at().y),
          "state its invert or give elevations there");
    }
    boolean open =
        switch (outlet.kind()) {
          case DITCH, WATERWAY, STREET, DAYLIGHT -> true;
          case CATCH_BASIN, DRY_WELL -> false;
        };
    return new OutletTarget(outlet.id(), outlet.at(), outlet.invertM().orElse(there), open);
  }
}
