package org.yardfall.elevation;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
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

  /** Rasters' planes as {@link #crsOf} and {@link #utmOf} give them. */
  RasterPlanes PLANES =
      new RasterPlanes() {
        @Override
        public Optional<WorkingCrs> own(Path raster) {
          return crsOf(raster);
        }

        @Override
        public Optional<WorkingCrs> zone(Path raster) {
          return Optional.of(utmOf(raster));
        }

        @Override
        public Optional<WorkingCrs> ofShots(Path shots) {
          return ShotFile.planeOf(shots);
        }
      };

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

  /**
   * The CRS of a raster, for use as the working CRS. Only the header is read.
   *
   * @return its CRS; empty where its coordinates are angles, or where its lengths differ from those
   *     on the ground by more than one in a hundred, as in Web Mercator
   * @throws BadInputException where the file is missing, is no raster of elevations or has no CRS
   */
  static Optional<WorkingCrs> crsOf(Path raster) {
    return RasterSource.crsOf(raster);
  }

  /**
   * The UTM zone of a raster's middle: a working CRS where {@link #crsOf} knows none.
   *
   * @throws BadInputException where the file is missing, is no raster of elevations, has no CRS or
   *     lies beyond UTM
   */
  static WorkingCrs utmOf(Path raster) {
    return RasterSource.utmOf(raster);
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
