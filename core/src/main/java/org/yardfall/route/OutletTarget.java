package org.yardfall.route;

import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Outlet;

/**
 * Where a pipe must arrive.
 *
 * @param id the outlet's id
 * @param at its place in metres of the working plane
 * @param invertM lowest elevation in metres at which the pipe may arrive
 * @param openEnd whether the pipe comes out into the open (daylight, ditch, waterway, street), so
 *     that no cover is asked in its last metres
 */
public record OutletTarget(String id, Coordinate at, double invertM, boolean openEnd) {

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
