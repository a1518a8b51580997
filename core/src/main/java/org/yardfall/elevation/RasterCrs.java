package org.yardfall.elevation;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.GeographicCRS;
import org.geotools.api.referencing.crs.SingleCRS;
import org.geotools.api.referencing.datum.Ellipsoid;
import org.geotools.referencing.CRS;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.WorkingCrs;

/**
 * The CRS of a raster. Looked up only when its definition is needed: a raster that names the
 * working CRS by its code is known to lie in it without a look-up.
 */
final class RasterCrs {

  private static final double EARTH_RADIUS_M = 6_378_137;

  private static final double UNIT_TOLERANCE = 1e-9;

  /** Coordinates this near, in units of the CRS, are the same. */
  private static final double COINCIDE = 1e-4;

  private final String name;
  private final String source;
  private final Optional<VerticalUnit> keyedUnit;
  private CoordinateReferenceSystem crs;

  private RasterCrs(
      String name, String source, Optional<VerticalUnit> keyedUnit, CoordinateReferenceSystem crs) {
    this.name = name;
    this.source = source;
    this.keyedUnit = keyedUnit;
    this.crs = crs;
  }

  /**
   * The CRS with the given EPSG code.
   *
   * @param source the file that names it
   * @param keyedUnit the unit of length that the file gives beside it, which must be the CRS's own
   */
  static RasterCrs ofEpsg(int code, String source, Optional<VerticalUnit> keyedUnit) {
    return new RasterCrs("EPSG:" + code, source, keyedUnit, null);
  }

  /** The CRS with the given EPSG name or definition, named by the given source. */
  static RasterCrs ofName(String name, String source) {
    CoordinateReferenceSystem crs = CrsLookup.decode(name, source);
    return new RasterCrs(CrsLookup.shortName(crs), source, Optional.empty(), crs);
  }

  /** The CRS as defined in the given file. */
  static RasterCrs of(CoordinateReferenceSystem crs, String source) {
    return new RasterCrs(CrsLookup.shortName(crs), source, Optional.empty(), crs);
  }

  /** Its EPSG code with prefix, or its own name. */
  String name() {
    return name;
  }

  /** Its definition, easting or longitude first. */
  CoordinateReferenceSystem definition() {
    if (crs == null) {
      crs = CrsLookup.decode(name, source);
    }
    return crs;
  }

  /** Whether this is the given working CRS: the same code, or the same definition but for names. */
  boolean is(WorkingCrs working) {
    boolean same =
        (name.equals(working.name()) && name.startsWith("EPSG:"))
            || CRS.equalsIgnoreMetadata(definition(), working.crs());
    if (same) {
      checkUnit(working.metresPerUnit());
    }
    return same;
  }

  /** A file whose unit key contradicts its CRS would be read 3.28 times too large or too small. */
  private void checkUnit(double metresPerUnit) {
    if (keyedUnit.isPresent()
        && Math.abs(keyedUnit.get().metres() / metresPerUnit - 1) > UNIT_TOLERANCE) {
      throw new BadInputException(
          source,
          "its key for the unit of length says "
              + keyedUnit.get().name()
              + ", its CRS "
              + name
              + " says "
              + VerticalUnit.ofMetres(metresPerUnit, "").name(),
          "write its CRS anew");
    }
  }

  /**
   * How coordinates in this CRS may be taken for coordinates in the working CRS although the two
   * are defined differently: because a place has the same coordinates in both to a tenth of a
   * millimetre. Empty where it has not. Definitions from elsewhere often differ from the register's
   * in names alone.
   *
   * @param xy places in this CRS: x0, y0, x1, y1, …
   */
  Optional<PlaneTransform> coincidesWith(WorkingCrs working, double... xy) {
    if (geographic() || CrsLookup.metresPerUnit(definition()) != working.metresPerUnit()) {
      return Optional.empty();
    }
    PlaneTransform transform = PlaneTransform.between(definition(), working.crs());
    double[] there = xy.clone();
    transform.apply(there);
    for (int i = 0; i < xy.length; i++) {
      if (!(Math.abs(there[i] - xy[i]) < COINCIDE)) {
        return Optional.empty();
      }
    }
    return Optional.of(transform);
  }

  /** Whether the datum is the working CRS's by another spelling of its name. */
  boolean sharesDatumName(WorkingCrs working) {
    return datumWords(definition()).equals(datumWords(working.crs()));
  }

  private static Set<String> datumWords(CoordinateReferenceSystem crs) {
    String name = ((SingleCRS) crs).getDatum().getName().getCode().toLowerCase(Locale.ROOT);
    Set<String> words = new TreeSet<>(List.of(name.split("[^a-z0-9]+", -1)));
    words.removeAll(List.of("", "d", "datum", "geodetic", "the", "of"));
    return words;
  }

  /** Whether this is the same CRS as another raster's. */
  boolean is(RasterCrs other) {
    return (name.equals(other.name) && name.startsWith("EPSG:"))
        || CRS.equalsIgnoreMetadata(definition(), other.definition());
  }

  /** Whether its coordinates are angles. */
  boolean geographic() {
    return definition() instanceof GeographicCRS;
  }

  /**
   * The working CRS that this one can serve as at the given place, empty where its coordinates are
   * angles or its lengths are far from those on the ground (as with Web Mercator).
   *
   * @param x place in its own unit
   * @param y place in its own unit
   */
  Optional<WorkingCrs> asWorkingCrs(double x, double y) {
    if (geographic()) {
      return Optional.empty();
    }
    WorkingCrs working = CrsLookup.of(definition());
    checkUnit(working.metresPerUnit());
    return GroundScale.stretches(working, x, y) ? Optional.empty() : Optional.of(working);
  }

  /**
   * Refuses a CRS of another body than the Earth.
   *
   * @throws BadInputException where its ellipsoid is not about the Earth's size
   */
  void checkEarth() {
    Ellipsoid ellipsoid = CRS.getEllipsoid(definition());
    if (ellipsoid != null && Math.abs(ellipsoid.getSemiMajorAxis() / EARTH_RADIUS_M - 1) > 0.01) {
      throw new BadInputException(
          source,
          "its CRS '"
              + name
              + "' is of a body of radius "
              + Math.round(ellipsoid.getSemiMajorAxis() / 1000)
              + " km, not of the Earth",
          "give a raster of the Earth's ground");
    }
  }
}
