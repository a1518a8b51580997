package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.yardfall.site.BadInputException;

/**
 * Which field of a point file is what, as indices from 0.
 *
 * @param id point number, −1 where there is none
 * @param easting easting
 * @param northing northing
 * @param elevation elevation
 * @param code where field code and description begin, −1 where there are none
 */
record ShotColumns(int id, int easting, int northing, int elevation, int code) {

  private static final Set<String> IDS =
      Set.of(
          "p",
          "pt",
          "pnt",
          "point",
          "pointno",
          "pointnumber",
          "pointname",
          "pointid",
          "id",
          "no",
          "nr",
          "num",
          "number",
          "name",
          "fid",
          "ptno",
          "shot");
  private static final Set<String> EASTINGS =
      Set.of("e", "east", "easting", "x", "xcoord", "coordx", "eastings", "geomx");
  private static final Set<String> NORTHINGS =
      Set.of("n", "north", "northing", "y", "ycoord", "coordy", "northings", "geomy");
  private static final Set<String> ELEVATIONS =
      Set.of(
          "z",
          "el",
          "elev",
          "elevation",
          "height",
          "h",
          "level",
          "rl",
          "alt",
          "altitude",
          "zcoord",
          "coordz",
          "reducedlevel");
  private static final Set<String> CODES =
      Set.of(
          "d",
          "desc",
          "description",
          "code",
          "c",
          "note",
          "notes",
          "remark",
          "remarks",
          "feature",
          "fieldcode",
          "descriptor",
          "rawdescription",
          "comment");

  /**
   * The columns in an order given by letters, such as PNEZD or XYZ, or by names with commas; a
   * hyphen passes a column over.
   *
   * @throws BadInputException where the order lacks a coordinate or holds something unknown
   */
  static ShotColumns ofOrder(String order) {
    String plain = order.strip();
    List<String> names = new ArrayList<>();
    if (plain.contains(",") || plain.contains(" ") || plain.contains(";")) {
      names.addAll(List.of(plain.split("[,; ]+", -1)));
    } else {
      plain.chars().forEach(letter -> names.add(String.valueOf((char) letter)));
    }
    for (String name : names) {
      if (!name.equals("-") && !known(key(name))) {
        throw new BadInputException(
            "elevation.columns",
            "'" + name + "' in '" + order + "' is no column",
            "write an order such as PNEZD: P point number, N northing, E easting, Z elevation,"
                + " D description, - a column to pass over");
      }
    }
    return ofNames(names)
        .orElseThrow(
            () ->
                new BadInputException(
                    "elevation.columns",
                    "the order '" + order + "' lacks northing, easting or elevation",
                    "write an order such as PNEZD, PENZD, NEZ, ENZ or XYZ"));
  }

  private static boolean known(String key) {
    return IDS.contains(key)
        || EASTINGS.contains(key)
        || NORTHINGS.contains(key)
        || ELEVATIONS.contains(key)
        || CODES.contains(key);
  }

  /** The columns that a header names; empty where the fields are no header of a point file. */
  static Optional<ShotColumns> ofNames(List<String> names) {
    int[] found = {-1, -1, -1, -1, -1};
    List<Set<String>> kinds = List.of(IDS, EASTINGS, NORTHINGS, ELEVATIONS, CODES);
    for (int i = 0; i < names.size(); i++) {
      String key = key(names.get(i));
      for (int kind = 0; kind < kinds.size(); kind++) {
        if (found[kind] < 0 && kinds.get(kind).contains(key)) {
          found[kind] = i;
        }
      }
    }
    return found[1] < 0 || found[2] < 0 || found[3] < 0
        ? Optional.empty()
        : Optional.of(new ShotColumns(found[0], found[1], found[2], found[3], found[4]));
  }

  /** Whether the fields read like a header: words of which at least two are known as columns. */
  static boolean looksLikeHeader(List<String> fields) {
    return fields.stream().filter(field -> known(key(field))).count() >= 2;
  }

  /** Whether a header calls its axes x and y, which leaves open which of them is northing. */
  static boolean namesAxes(List<String> names) {
    return names.stream().map(ShotColumns::key).anyMatch(key -> key.startsWith("x"));
  }

  /**
   * The columns of records without a header, northing before easting: told from which fields hold
   * numbers.
   */
  static Optional<ShotColumns> guess(List<List<String>> records, ShotDialect dialect) {
    boolean[] numeric = new boolean[5];
    int width = 0;
    for (int i = 0; i < numeric.length; i++) {
      int column = i;
      long numbers =
          records.stream()
              .filter(r -> r.size() > column && Double.isFinite(dialect.number(r.get(column))))
              .count();
      numeric[i] = numbers > 0.8 * records.size();
      width = records.stream().anyMatch(r -> r.size() > column) ? i + 1 : width;
    }
    boolean numbered = numeric[1] && numeric[2] && numeric[3] && isPointNumber(records, dialect);
    int first = numbered ? 1 : 0;
    if (!numbered && !(numeric[0] && numeric[1] && numeric[2])) {
      return Optional.empty();
    }
    int code = width > first + 3 ? first + 3 : -1;
    return Optional.of(new ShotColumns(first - 1, first + 1, first, first + 2, code));
  }

  /** Whether the first fields are all different and none has decimals. */
  private static boolean isPointNumber(List<List<String>> records, ShotDialect dialect) {
    Set<String> seen = new java.util.HashSet<>();
    int repeated = 0;
    for (List<String> fields : records) {
      double number = dialect.number(fields.get(0));
      if ((Double.isFinite(number) && number != Math.rint(number))
          || fields.get(0).matches(".*[.,]\\d.*")) {
        return false;
      }
      if (!seen.add(fields.get(0))) {
        repeated++;
      }
    }
    return repeated <= 0.2 * records.size();
  }

  /** The same with northing and easting exchanged. */
  ShotColumns swapped() {
    return new ShotColumns(id, northing, easting, elevation, code);
  }

  /** The order in letters, such as PNEZD. */
  String order() {
    int width = Math.max(Math.max(id, code), Math.max(elevation, Math.max(easting, northing)));
    char[] letters = "-".repeat(width + 1).toCharArray();
    letters[easting] = 'E';
    letters[northing] = 'N';
    letters[elevation] = 'Z';
    if (id >= 0) {
      letters[id] = 'P';
    }
    if (code >= 0) {
      letters[code] = 'D';
    }
    return new String(letters);
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT).replaceAll("\\(.*?\\)|\\[.*?]|[^a-z]", "");
  }
}
