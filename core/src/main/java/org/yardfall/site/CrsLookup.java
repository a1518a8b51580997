package org.yardfall.site;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.geotools.api.referencing.FactoryException;
import org.geotools.api.referencing.NoSuchAuthorityCodeException;
import org.geotools.api.referencing.ReferenceIdentifier;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.ProjectedCRS;
import org.geotools.api.referencing.crs.SingleCRS;
import org.geotools.api.referencing.cs.AxisDirection;
import org.geotools.api.referencing.cs.CoordinateSystem;
import org.geotools.measure.Units;
import org.geotools.referencing.CRS;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import si.uom.SI;

/**
 * Finds coordinate reference systems by name and says what a site must know of one: its short name,
 * its metres per unit, whether it can be worked in.
 *
 * <p>Every CRS that leaves here has its easting or longitude first, whatever its authority's
 * definition says, because that is how rasters, shapefiles and GeoJSON store coordinates. This is
 * asked for with each look-up, never with a setting of the whole JVM.
 */
public final class CrsLookup {

  /** {@code EPSG:26915}, {@code urn:ogc:def:crs:EPSG:9.9:26915}, {@code .../crs/EPSG/0/26915}. */
  private static final Pattern EPSG_NAME =
      Pattern.compile(
          "(?:EPSG|urn:(?:x-)?ogc:def:crs:EPSG|https?://www\\.opengis\\.net/def/crs/EPSG/[^/]*)"
              + "[:/](?:[^:/]*:)?(\\d+)",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern CRS84_NAME =
      Pattern.compile(
          "(?:OGC:|CRS:|urn:(?:x-)?ogc:def:crs:OGC:[^:]*:|https?://www\\.opengis\\.net/def/crs/OGC/[^/]*/)?"
              + "(?:CRS:?)?84",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern WKT_START =
      Pattern.compile("\\s*[A-Z_]+\\s*\\[.*", Pattern.DOTALL | Pattern.CASE_INSENSITIVE);

  /** Units this close, relatively, to a foot or a metre are that foot or metre exactly. */
  private static final double UNIT_TOLERANCE = 1e-9;

  private static final Map<Integer, CoordinateReferenceSystem> BY_CODE = new ConcurrentHashMap<>();

  private CrsLookup() {}

  /**
   * The CRS of the given name, easting or longitude first.
   *
   * @param name an EPSG name ({@code EPSG:26915}, its URN or its URL, in any case), {@code
   *     OGC:CRS84}, or the CRS's definition as well-known text
   * @throws BadInputException if there is no such CRS or the name cannot be understood
   */
  public static CoordinateReferenceSystem decode(String name) {
    return decode(name, name);
  }

  /** As {@link #decode(String)}; problems are said of the given source. */
  public static CoordinateReferenceSystem decode(String name, String source) {
    String trimmed = name.trim();
    if (WKT_START.matcher(trimmed).matches()) {
      return parseWkt(trimmed, source);
    }
    if (CRS84_NAME.matcher(trimmed).matches()) {
      return DefaultGeographicCRS.WGS84;
    }
    Matcher epsg = EPSG_NAME.matcher(trimmed);
    if (!epsg.matches() || epsg.group(1).length() > 9) {
      throw new BadInputException(
          source,
          "the CRS name '" + shorten(name) + "' is not understood",
          "give an EPSG code such as EPSG:26915");
    }
    return byEpsgCode(Integer.parseInt(epsg.group(1)), source);
  }

  private static CoordinateReferenceSystem byEpsgCode(int code, String source) {
    if (code == 4326) {
      return DefaultGeographicCRS.WGS84;
    }
    CoordinateReferenceSystem known = BY_CODE.get(code);
    if (known == null) {
      known = find(code, source);
      BY_CODE.put(code, known);
    }
    return known;
  }

  private static CoordinateReferenceSystem find(int code, String source) {
    Optional<String> utm = UtmZones.wkt(code);
    if (utm.isPresent()) {
      return parseWkt(utm.get(), source);
    }
    try {
      return CRS.getHorizontalCRS(
          CRS.getAuthorityFactory(true).createCoordinateReferenceSystem("EPSG:" + code));
    } catch (NoSuchAuthorityCodeException e) {
      throw new BadInputException(
          source, "there is no CRS EPSG:" + code, "check the code in the EPSG register");
    } catch (FactoryException e) {
      throw new BadInputException(
          source,
          "the CRS EPSG:" + code + " cannot be set up (" + shorten(e.getMessage()) + ")",
          "give another CRS");
    }
  }

  /**
   * The CRS defined by well-known text (OGC WKT 1 or the form of a shapefile's {@code .prj}),
   * easting or longitude first.
   *
   * @throws BadInputException if the text cannot be understood
   */
  public static CoordinateReferenceSystem parseWkt(String wkt, String source) {
    try {
      String text = DatumShifts.complete(wkt.trim());
      CoordinateReferenceSystem crs = CRS.parseWKT(text);
      if (isNorthingFirst(crs)) {
        crs = CRS.parseWKT(text.replaceAll("(?i),\\s*AXIS\\s*\\[[^\\]]*\\]", ""));
      }
      CoordinateReferenceSystem horizontal = CRS.getHorizontalCRS(crs);
      return horizontal == null ? crs : horizontal;
    } catch (FactoryException | RuntimeException e) {
      throw new BadInputException(
          source,
          "the CRS definition cannot be understood (" + shorten(e.getMessage()) + ")",
          "give the CRS as an EPSG code");
    }
  }

  /**
   * The given CRS as a working CRS.
   *
   * @throws BadInputException if it is not projected in a linear unit (degrees are no lengths)
   */
  public static WorkingCrs of(CoordinateReferenceSystem crs) {
    CoordinateReferenceSystem horizontal = CRS.getHorizontalCRS(crs);
    String name = shortName(horizontal == null ? crs : horizontal);
    if (!isProjected(horizontal)) {
      throw new BadInputException(
          name,
          "the CRS is not projected, so its coordinates are not lengths",
          "give a projected CRS in metres or feet as site.crs");
    }
    if (isNorthingFirst(horizontal)) {
      horizontal =
          name.startsWith("EPSG:")
              ? decode(name)
              : parseWkt(((SingleCRS) horizontal).toWKT(), name);
    }
    return new WorkingCrs(horizontal, name, metresPerUnit(horizontal));
  }

  /** The CRS of the given name (see {@link #decode(String)}) as a working CRS. */
  public static WorkingCrs of(String name) {
    return of(decode(name));
  }

  /** Whether the CRS is a projected one, so that its coordinates are lengths. */
  public static boolean isProjected(CoordinateReferenceSystem crs) {
    return CRS.getHorizontalCRS(crs) instanceof ProjectedCRS;
  }

  /**
   * Metres per unit of a projected CRS's axes; a metre and both feet come out exactly (1, 0.3048,
   * 1200/3937), however many digits their file gives.
   */
  public static double metresPerUnit(CoordinateReferenceSystem projected) {
    double metres =
        Units.getConverterToAny(projected.getCoordinateSystem().getAxis(0).getUnit(), SI.METRE)
            .convert(1.0);
    for (double exact :
        new double[] {1.0, WorkingCrs.INTERNATIONAL_FOOT_M, WorkingCrs.US_SURVEY_FOOT_M}) {
      if (Math.abs(metres / exact - 1.0) < UNIT_TOLERANCE) {
        return exact;
      }
    }
    return metres;
  }

  /**
   * The name by which a person knows the CRS: its EPSG code where it carries one, else its own
   * name. No search of the EPSG database is made.
   */
  public static String shortName(CoordinateReferenceSystem crs) {
    if (crs.equals(DefaultGeographicCRS.WGS84)) {
      return "EPSG:4326";
    }
    for (ReferenceIdentifier id : crs.getIdentifiers()) {
      if ("EPSG".equalsIgnoreCase(id.getCodeSpace())) {
        return "EPSG:" + id.getCode();
      }
    }
    return crs.getName().getCode();
  }

  /**
   * The UTM zone of a place, on WGS 84, with the zones widened in south-west Norway and Svalbard.
   *
   * @param longitude degrees, −180 to 180
   * @param latitude degrees, −80 to 84
   * @throws BadInputException if the place lies beyond UTM
   */
  public static WorkingCrs utm(double longitude, double latitude) {
    if (!(latitude >= -80 && latitude <= 84 && Math.abs(longitude) <= 180)) {
      throw new BadInputException(
          String.format(Locale.ROOT, "%.5f, %.5f", longitude, latitude),
          "the place lies beyond the UTM zones",
          "give a projected CRS as site.crs");
    }
    return of("EPSG:" + ((latitude < 0 ? 32700 : 32600) + utmZone(longitude, latitude)));
  }

  private static int utmZone(double longitude, double latitude) {
    if (latitude >= 56 && latitude < 64 && longitude >= 3 && longitude < 12) {
      return 32;
    }
    if (latitude >= 72 && longitude >= 0 && longitude < 42) {
      return longitude < 9 ? 31 : longitude < 21 ? 33 : longitude < 33 ? 35 : 37;
    }
    return Math.min(60, (int) Math.floor((longitude + 180) / 6) + 1);
  }

  private static boolean isNorthingFirst(CoordinateReferenceSystem crs) {
    CoordinateSystem axes = crs.getCoordinateSystem();
    return axes.getDimension() >= 2
        && AxisDirection.NORTH.equals(axes.getAxis(0).getDirection())
        && AxisDirection.EAST.equals(axes.getAxis(1).getDirection());
  }

  private static String shorten(String text) {
    String line = String.valueOf(text).lines().findFirst().orElse("");
    return line.length() <= 80 ? line : line.substring(0, 77) + "...";
  }
}
