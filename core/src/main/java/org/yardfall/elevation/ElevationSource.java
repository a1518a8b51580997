package org.yardfall.elevation;

import java.util.List;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.RasterPlanes;
import org.yardfall.site.WorkingCrs;

/**
 * The ground of a site, read by window: from rasters, from survey shots, or from rasters tied to
 * shots. Elevations leave in metres on square cells of the working plane, north up. Nothing stays
 * open between reads; a source may be used by several threads.
 */
public sealed interface ElevationSource permits RasterSource, ShotSource, TiedSource {

  /** The planes on which files of ground lie, for a site that names none. */
  RasterPlanes PLANES = new OwnPlanes();

  /**
   * Opens what a site names as its ground.
   *
   * @param input the files and what the user says of them
   * @param crs the working CRS
   * @throws BadInputException where a file is missing, holds no elevations, cannot be placed, or
   *     does not go with the others
   */
  static ElevationSource open(ElevationInput input, WorkingCrs crs) {
    return open(input, crs, null);
  }

  /**
   * The same, with a lot by whose outline the order of a point file's columns is recognised and
   * checked.
   *
   * @param lot the lot's outline on the working plane in metres, or null
   */
  static ElevationSource open(ElevationInput input, WorkingCrs crs, Geometry lot) {
    if (!input.given()) {
      throw new BadInputException(
          "elevation", "no elevation is given", "name files or shots under elevation");
    }
    if (input.rasters().isEmpty()) {
      return new ShotSource(input, crs, lot);
    }
    RasterSource raster = new RasterSource(input, crs);
    return input.shots() == null ? raster : new TiedSource(raster, input, crs, lot);
  }

  /** What its shots show besides the ground, by the user's field codes; nothing without shots. */
  default SurveyedFeatures features() {
    return SurveyedFeatures.NONE;
  }

  /** The ground covered on the working plane, in metres. */
  Envelope extentM();

  /** Cell size in metres. */
  double cellM();

  /**
   * Reads a window of the ground.
   *
   * @param windowM the window on the working plane in metres; it is widened to whole cells and cut
   *     where the source ends
   * @return the ground with what is to be known about it
   * @throws BadInputException where the window lies beside the source, is too large, holds no
   *     elevation, or cannot be read
   */
  Terrain read(Envelope windowM);

  /**
   * What the files hold and how they were read, in lines for a person.
   *
   * @throws BadInputException where the data cannot be read
   */
  List<String> describe();
}
