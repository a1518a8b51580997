package org.yardfall.site;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.geotools.api.referencing.FactoryException;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.SingleCRS;
import org.geotools.api.referencing.datum.Datum;
import org.geotools.api.referencing.operation.ConcatenatedOperation;
import org.geotools.api.referencing.operation.CoordinateOperation;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.api.referencing.operation.OperationNotFoundException;
import org.geotools.api.referencing.operation.TransformException;
import org.geotools.api.referencing.operation.Transformation;
import org.geotools.referencing.CRS;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.geotools.referencing.datum.BursaWolfParameters;
import org.geotools.referencing.datum.DefaultGeodeticDatum;
import org.geotools.referencing.operation.AbstractCoordinateOperation;
import org.geotools.referencing.operation.DefaultCoordinateOperationFactory;
import org.geotools.util.factory.Hints;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.CoordinateXY;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.impl.CoordinateArraySequence;
import org.locationtech.jts.geom.util.GeometryEditor;

/**
 * Carries plan coordinates between the working plane (metres) and another CRS, and says how.
 *
 * <p>Where the two stand on different datums, the shift that belongs to the datum's definition
 * (three or seven parameters) is used. Where none is known, the two are taken as one and {@link
 * #warning()} says so: a shift is never left out in silence. Elevations are not touched, and a
 * third coordinate is dropped.
 *
 * <p>Immutable; may be used by several threads.
 */
public final class PlaneTransform {

  private static final String SAME_DATUM = "same datum, no shift";

  private final MathTransform transform;
  private final double scaleIn;
  private final double scaleOut;
  private final String operation;
  private final String warning;

  private PlaneTransform(
      CoordinateReferenceSystem from,
      double scaleIn,
      CoordinateReferenceSystem to,
      double scaleOut) {
    this.scaleIn = scaleIn;
    this.scaleOut = scaleOut;
    String ends = CrsLookup.shortName(from) + " to " + CrsLookup.shortName(to);
    CoordinateOperation found;
    String missing = null;
    try {
      found = find(from, to, false);
    } catch (OperationNotFoundException e) {
      missing =
          ends
              + ": no shift is known between the datums "
              + datumName(from)
              + " and "
              + datumName(to)
              + "; they are taken as one, so positions may be off by up to some hundred metres";
      found = findLeniently(from, to, ends);
    } catch (FactoryException e) {
      throw noTransform(ends, e);
    }
    this.transform = found.getMathTransform();
    this.warning = missing;
    this.operation = missing != null ? missing : ends + ": " + shift(found, from, to);
  }

  /** From a CRS's own coordinates (easting or longitude first) to metres of the working plane. */
  public static PlaneTransform toPlane(CoordinateReferenceSystem from, WorkingCrs plane) {
    return new PlaneTransform(CRS.getHorizontalCRS(from), 1.0, plane.crs(), plane.metresPerUnit());
  }

  /** From metres of the working plane to a CRS's own coordinates (easting or longitude first). */
  public static PlaneTransform fromPlane(WorkingCrs plane, CoordinateReferenceSystem to) {
    return new PlaneTransform(
        plane.crs(), 1.0 / plane.metresPerUnit(), CRS.getHorizontalCRS(to), 1.0);
  }

  /** From metres of the working plane to WGS 84 longitude and latitude in degrees (RFC 7946). */
  public static PlaneTransform toWgs84(WorkingCrs plane) {
    return fromPlane(plane, DefaultGeographicCRS.WGS84);
  }

  /** Between two CRSs' own coordinates, easting or longitude first. */
  public static PlaneTransform between(
      CoordinateReferenceSystem from, CoordinateReferenceSystem to) {
    return new PlaneTransform(CRS.getHorizontalCRS(from), 1.0, CRS.getHorizontalCRS(to), 1.0);
  }

  /**
   * Transforms pairs x0, y0, x1, y1, … in place.
   *
   * @throws BadInputException if a point lies where the projection has no value
   */
  public void apply(double[] xy) {
    scale(xy, scaleIn);
    try {
      transform.transform(xy, 0, xy, 0, xy.length / 2);
    } catch (TransformException e) {
      throw new BadInputException(
          operation, "a point lies outside the area of the CRS", "check the CRS of the data");
    }
    scale(xy, scaleOut);
  }

  /** The transformed point, without a third coordinate. */
  public Coordinate apply(Coordinate point) {
    double[] xy = {point.x, point.y};
    apply(xy);
    return new CoordinateXY(xy[0], xy[1]);
  }

  /** The transformed geometry, vertex by vertex, without third coordinates. */
  public Geometry apply(Geometry geometry) {
    return new GeometryEditor()
        .edit(
            geometry,
            new GeometryEditor.CoordinateSequenceOperation() {
              @Override
              public CoordinateSequence edit(CoordinateSequence from, Geometry parent) {
                Coordinate[] points = new Coordinate[from.size()];
                for (int i = 0; i < points.length; i++) {
                  points[i] = PlaneTransform.this.apply(from.getCoordinate(i));
                }
                return new CoordinateArraySequence(points, 2);
              }
            });
  }

  /** The operation in words: from where, to where, by which datum shift. */
  public String operation() {
    return operation;
  }

  /** Whether the two CRSs stand on different datums. */
  public boolean shiftsDatum() {
    return !operation.endsWith(SAME_DATUM);
  }

  /** What a person must know where no datum shift was found; else empty. */
  public Optional<String> warning() {
    return Optional.ofNullable(warning);
  }

  private static void scale(double[] xy, double factor) {
    if (factor != 1.0) {
      for (int i = 0; i < xy.length; i++) {
        xy[i] *= factor;
      }
    }
  }

  private static CoordinateOperation find(
      CoordinateReferenceSystem from, CoordinateReferenceSystem to, boolean lenient)
      throws FactoryException {
    if (rotatesByRegister(from) || rotatesByRegister(to)) {
      return CRS.getCoordinateOperationFactory(lenient).createOperation(from, to);
    }
    // This factory reads the datums' own shifts; the other would start the EPSG database first,
    // for more than a second.
    return new DefaultCoordinateOperationFactory(new Hints(Hints.LENIENT_DATUM_SHIFT, lenient))
        .createOperation(from, to);
  }

  /**
   * Whether the CRS comes from the EPSG register and its datum's shift has rotations. GeoTools 33.1
   * hands the signs of the register's coordinate frame rotations on wrongly when it attaches them
   * to a datum (tens of metres in the Netherlands), but applies the register's operations rightly.
   */
  private static boolean rotatesByRegister(CoordinateReferenceSystem crs) {
    return CrsLookup.shortName(crs).startsWith("EPSG:")
        && toWgs84(((SingleCRS) crs).getDatum()).filter(p -> !p.isTranslation()).isPresent();
  }

  private static CoordinateOperation findLeniently(
      CoordinateReferenceSystem from, CoordinateReferenceSystem to, String ends) {
    try {
      return find(from, to, true);
    } catch (FactoryException e) {
      throw noTransform(ends, e);
    }
  }

  private static BadInputException noTransform(String ends, FactoryException e) {
    return new BadInputException(
        ends,
        "there is no way from one CRS to the other (" + e.getMessage() + ")",
        "give the data in another CRS");
  }

  private static String shift(
      CoordinateOperation operation, CoordinateReferenceSystem from, CoordinateReferenceSystem to) {
    Datum a = ((SingleCRS) from).getDatum();
    Datum b = ((SingleCRS) to).getDatum();
    if (CRS.equalsIgnoreMetadata(a, b)) {
      return SAME_DATUM;
    }
    if (rotatesByRegister(from) || rotatesByRegister(to)) {
      return registeredSteps(operation);
    }
    return Stream.of(a, b)
        .map(PlaneTransform::shiftToWgs84)
        .filter(step -> !step.isEmpty())
        .collect(Collectors.joining(", "));
  }

  private static String registeredSteps(CoordinateOperation operation) {
    List<? extends CoordinateOperation> steps =
        operation instanceof ConcatenatedOperation chain
            ? chain.getOperations()
            : List.of(operation);
    String names =
        steps.stream()
            .filter(step -> step instanceof Transformation)
            .map(step -> step.getName().getCode())
            .collect(Collectors.joining(", then "));
    double accuracyM = AbstractCoordinateOperation.getAccuracy(operation);
    return accuracyM > 0
        ? names + String.format(Locale.ROOT, " (EPSG; good to about %s m)", accuracyM)
        : names + " (EPSG)";
  }

  private static String shiftToWgs84(Datum datum) {
    return toWgs84(datum).map(p -> datum.getName().getCode() + " " + parameters(p)).orElse("");
  }

  /** The datum's own shift to WGS 84; empty where it has none or is WGS 84. */
  private static Optional<BursaWolfParameters> toWgs84(Datum datum) {
    if (!(datum instanceof DefaultGeodeticDatum geodetic)
        || CRS.equalsIgnoreMetadata(datum, DefaultGeodeticDatum.WGS84)) {
      return Optional.empty();
    }
    return Arrays.stream(geodetic.getBursaWolfParameters())
        .filter(p -> CRS.equalsIgnoreMetadata(p.targetDatum, DefaultGeodeticDatum.WGS84))
        .findFirst();
  }

  private static String parameters(BursaWolfParameters p) {
    if (p.isIdentity()) {
      return "taken as equal to WGS 84 (null shift, good to a metre or two)";
    }
    String moved = String.format(Locale.ROOT, "shifted by %s, %s, %s m", p.dx, p.dy, p.dz);
    return p.isTranslation()
        ? moved
        : moved
            + String.format(
                Locale.ROOT, "; %s, %s, %s arc seconds; %s ppm", p.ex, p.ey, p.ez, p.ppm);
  }

  private static String datumName(CoordinateReferenceSystem crs) {
    return ((SingleCRS) crs).getDatum().getName().getCode();
  }
}
