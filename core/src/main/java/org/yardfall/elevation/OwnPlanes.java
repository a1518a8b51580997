package org.yardfall.elevation;

import java.awt.geom.Point2D;
import java.nio.file.Path;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.RasterPlanes;
import org.yardfall.site.WorkingCrs;

/** The planes on which the files of a site's ground lie. Only their headers are read. */
final class OwnPlanes implements RasterPlanes {

  /**
   * The CRS of a raster, for use as the working CRS.
   *
   * @return its CRS; empty where its coordinates are angles, or where its lengths differ from those
   *     on the ground by more than one in a hundred, as in Web Mercator
   * @throws BadInputException where the file is missing, is no raster of elevations or has no CRS
   */
  @Override
  public Optional<WorkingCrs> own(Path raster) {
    RasterHeader header = RasterFiles.open(raster).header();
    Point2D centre = centre(header);
    return crs(header).asWorkingCrs(centre.getX(), centre.getY());
  }

  /**
   * The UTM zone of a raster's middle: a working CRS where {@link #own} knows none.
   *
   * @throws BadInputException where the file is missing, is no raster of elevations, has no CRS or
   *     lies beyond UTM
   */
  @Override
  public Optional<WorkingCrs> zone(Path raster) {
    RasterHeader header = RasterFiles.open(raster).header();
    Point2D centre = centre(header);
    Coordinate degrees =
        PlaneTransform.between(crs(header).definition(), CrsLookup.decode("EPSG:4326"))
            .apply(new Coordinate(centre.getX(), centre.getY()));
    return Optional.of(CrsLookup.utm(degrees.x, degrees.y));
  }

  @Override
  public Optional<WorkingCrs> ofShots(Path shots) {
    return ShotFile.planeOf(shots);
  }

  private static RasterCrs crs(RasterHeader header) {
    RasterCrs crs = header.crs().orElseThrow(() -> withoutCrs(header.file()));
    crs.checkEarth();
    return crs;
  }

  private static Point2D centre(RasterHeader header) {
    return header
        .cellToCrs()
        .transform(new Point2D.Double(header.cols() / 2.0, header.rows() / 2.0), null);
  }

  static BadInputException withoutCrs(Path raster) {
    return new BadInputException(
        raster.toString(),
        "it does not say in which CRS it is",
        "give it as elevation: crs in the site file or with --crs, for example EPSG:26915");
  }
}
