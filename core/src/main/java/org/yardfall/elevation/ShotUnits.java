package org.yardfall.elevation;

import java.util.OptionalDouble;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.WorkingCrs;

/**
 * The units in which shots are recorded.
 *
 * @param planM metres per unit of the coordinates, where stated
 * @param heightM metres per unit of the elevations, where stated
 * @param usualM metres per unit where neither the user nor the file states one
 */
public record ShotUnits(OptionalDouble planM, OptionalDouble heightM, double usualM) {

  /** Metres, as stated. */
  public static final ShotUnits METRES = stated(1);

  /** One stated unit for coordinates and elevations, in metres. */
  public static ShotUnits stated(double metres) {
    return new ShotUnits(OptionalDouble.of(metres), OptionalDouble.empty(), metres);
  }

  /** The units as the site file states them; the working CRS's where it does not. */
  public static ShotUnits of(ElevationInput input, WorkingCrs crs) {
    return new ShotUnits(input.shotInput().unitM(), input.verticalUnitM(), crs.metresPerUnit());
  }

  /** Metres per unit of the coordinates of a file that names none itself. */
  double planOrUsualM() {
    return planM.orElse(usualM);
  }

  /** Metres per unit of the elevations of a file that names none itself. */
  double heightOrUsualM() {
    return heightM.orElse(planOrUsualM());
  }
}
