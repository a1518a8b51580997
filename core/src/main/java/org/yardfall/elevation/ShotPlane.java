package org.yardfall.elevation;

import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.site.Assumption;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/** Brings the places of a file that names its own CRS to the working plane. */
final class ShotPlane {

  private final RasterCrs own;
  private final double unitM;
  private final PlaneTransform transform;

  /** Whether coordinates are lengths, so that elevations may be taken to be in their unit. */
  private final boolean lengths;

  private ShotPlane(RasterCrs own, double unitM, PlaneTransform transform, boolean lengths) {
    this.own = own;
    this.unitM = unitM;
    this.transform = transform;
    this.lengths = lengths;
  }

  /**
   * From a CRS to the working one.
   *
   * @param source the file's name
   * @param x a place of the file, by which two definitions are told to be the same
   * @param y the same
   * @param assumptions takes how one CRS was brought to the other
   * @param warnings takes what could not be done in that
   */
  static ShotPlane of(
      RasterCrs own,
      WorkingCrs working,
      String source,
      double x,
      double y,
      List<Assumption> assumptions,
      List<String> warnings) {
    own.checkEarth();
    if (own.is(working) || own.coincidesWith(working, x, y).isPresent()) {
      return new ShotPlane(own, working.metresPerUnit(), null, true);
    }
    PlaneTransform transform = PlaneTransform.toPlane(own.definition(), working);
    Optional<String> missing = transform.warning();
    missing.ifPresent(warning -> warnings.add(source + ": " + warning));
    if (missing.isEmpty()) {
      assumptions.add(
          new Assumption(
              "CRS of " + source,
              own.name() + ", brought to " + working.name(),
              transform.operation()));
    }
    boolean lengths = !own.geographic();
    return new ShotPlane(
        own, lengths ? CrsLookup.metresPerUnit(own.definition()) : 1, transform, lengths);
  }

  /** A place given in units of its CRS, in metres of the working plane. */
  Coordinate place(double x, double y) {
    return transform == null
        ? new Coordinate(unitM * x, unitM * y)
        : transform.apply(new Coordinate(x, y));
  }

  /** Metres per unit of its coordinates; 1 where they are angles, beside which metres are usual. */
  double unitM() {
    return unitM;
  }

  /** What the coordinates are, in words. */
  String words() {
    return own.name()
        + (lengths ? ", places in " + VerticalUnit.ofMetres(unitM, "").name() : ", in degrees");
  }
}
