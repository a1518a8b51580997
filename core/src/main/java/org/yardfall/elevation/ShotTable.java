package org.yardfall.elevation;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.WorkingCrs;

/** Reads shots from delimited text. */
final class ShotTable {

  private static final String COLUMNS = "elevation.columns";

  /** A file with more lines than this share that are no shots is no point file. */
  private static final double MOST_BAD_LINES = 0.2;

  /** From this share of shots in the expected place on, an order fits. */
  private static final double FITS = 0.5;

  private final TextFile text;
  private final String name;
  private final ShotUnits units;
  private final ExpectedPlace place;
  private final ShotDialect dialect;
  private final List<List<String>> sample;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();
  private final boolean headed;
  private final ShotColumns columns;
  private String toldBy;

  /** Takes the file's first lines apart and finds its order. */
  ShotTable(TextFile text, String order, ShotUnits units, ExpectedPlace place) {
    this.text = text;
    this.name = text.file().getFileName().toString();
    this.units = units;
    this.place = place;
    this.dialect =
        ShotDialect.of(text.sample())
            .orElseThrow(
                () ->
                    bad(
                        "its first lines hold no shots: none has three numbers",
                        "give lines of point number, northing, easting, elevation, description"));
    this.sample = dialect.sample(text.sample());
    this.headed = ShotColumns.looksLikeHeader(sample.get(0)) && !numbers(sample.get(0));
    if (headed) {
      sample.remove(0);
    }
    this.columns = columns(order);
  }

  private boolean numbers(List<String> fields) {
    return fields.stream().filter(f -> Double.isFinite(dialect.number(f))).count() >= 3;
  }

  private ShotColumns columns(String order) {
    if (order != null && !order.isBlank()) {
      toldBy = "as stated";
      return checked(ShotColumns.ofOrder(order), false);
    }
    if (headed) {
      List<String> header = dialect.sample(text.sample()).get(0);
      Optional<ShotColumns> named = ShotColumns.ofNames(header);
      if (named.isEmpty()) {
        throw bad(
            "its header (" + String.join(", ", header) + ") lacks northing, easting or elevation",
            "name the columns in elevation.columns, such as PNEZD");
      }
      toldBy = "by its header";
      return checked(named.get(), ShotColumns.namesAxes(header));
    }
    return recognised();
  }

  /** An order that was given: it must not contradict the place. */
  private ShotColumns checked(ShotColumns given, boolean open) {
    double[] xy = sampleXy(given);
    double scale = units.planOrUsualM();
    if (!place.known()
        || place.share(xy, scale, false) >= FITS
        || place.share(xy, scale, true) < FITS) {
      return given;
    }
    ShotColumns swapped = given.swapped();
    if (!open) {
      throw bad(
          "northing and easting look swapped: read as "
              + given.order()
              + " the shots lie off "
              + place.name()
              + ", read as "
              + swapped.order()
              + " they lie on it",
          "give elevation.columns: " + swapped.order());
    }
    assumptions.add(
        new Assumption(
            COLUMNS,
            swapped.order() + ": its x is northing",
            "recognised against "
                + place.name()
                + "; the other way round "
                + name
                + " lies off it"));
    return swapped;
  }

  private ShotColumns recognised() {
    ShotColumns northingFirst =
        ShotColumns.guess(sample, dialect)
            .orElseThrow(
                () ->
                    bad(
                        "the order of its columns cannot be told",
                        "name it in elevation.columns, such as PNEZD"));
    ShotColumns eastingFirst = northingFirst.swapped();
    double[] xy = sampleXy(northingFirst);
    double scale = units.planOrUsualM();
    if (!place.known()) {
      throw bad(
          "whether northing or easting comes first cannot be told without a header or a lot",
          "give elevation.columns: " + northingFirst.order() + " or " + eastingFirst.order());
    }
    boolean northing = place.share(xy, scale, false) >= FITS;
    boolean easting = place.share(xy, scale, true) >= FITS;
    if (northing && easting) {
      throw bad(
          "its shots lie near " + place.name() + " whether northing or easting comes first",
          "give elevation.columns: " + northingFirst.order() + " or " + eastingFirst.order());
    }
    if (!northing && !easting) {
      throw bad(
          "its shots lie nowhere near "
              + place.name()
              + ", whether northing or easting comes first"
              + unitThatFits(xy),
          "check its CRS and unit against site.crs, or give elevation.columns");
    }
    ShotColumns found = northing ? northingFirst : eastingFirst;
    toldBy = "recognised against where " + place.name() + " lies";
    assumptions.add(new Assumption(COLUMNS, found.order(), toldBy + ", " + name));
    return found;
  }

  private String unitThatFits(double[] xy) {
    for (double metres :
        new double[] {1, WorkingCrs.INTERNATIONAL_FOOT_M, WorkingCrs.US_SURVEY_FOOT_M}) {
      if (place.share(xy, metres, false) >= FITS || place.share(xy, metres, true) >= FITS) {
        String unit = VerticalUnit.ofMetres(metres, "").name();
        return " (in units of the " + unit + " they would: elevation.unit)";
      }
    }
    return "";
  }

  /** Easting and northing of the sample in the file's unit. */
  private double[] sampleXy(ShotColumns order) {
    return sample.stream()
        .filter(fields -> fields.size() > Math.max(order.easting(), order.northing()))
        .flatMapToDouble(
            fields ->
                java.util.stream.DoubleStream.of(
                    dialect.number(fields.get(order.easting())),
                    dialect.number(fields.get(order.northing()))))
        .toArray();
  }

  /** Reads the whole file. */
  Shots read() {
    List<Shot> shots = new ArrayList<>();
    List<String> bad = new ArrayList<>();
    List<String> unmeasured = new ArrayList<>();
    boolean header = headed;
    try (Reader reader = text.reader();
        CSVParser parser = dialect.format().parse(reader)) {
      for (CSVRecord record : parser) {
        List<String> fields = dialect.fields(record);
        if (fields.isEmpty()) {
          continue;
        }
        if (header) {
          header = false;
          continue;
        }
        String line = "line " + parser.getCurrentLineNumber();
        Optional<Shot> shot = shot(fields, line);
        if (shot.isEmpty()) {
          bad.add(line);
        } else if (Double.isNaN(shot.get().z())) {
          unmeasured.add(shot.get().id());
        } else {
          shots.add(shot.get());
        }
      }
    } catch (IOException | UncheckedIOException e) {
      throw bad("it cannot be read (" + e.getMessage() + ")", "check the file");
    }
    if (bad.size() > MOST_BAD_LINES * (bad.size() + shots.size() + unmeasured.size())) {
      throw bad(
          bad.size()
              + " of its lines do not hold the shots that "
              + columns.order()
              + " says: "
              + PointNumbers.list(bad),
          "check its columns");
    }
    if (!bad.isEmpty()) {
      warnings.add(name + ": left out what is no shot: " + PointNumbers.list(bad));
    }
    if (!unmeasured.isEmpty()) {
      warnings.add(name + ": left out for want of an elevation: " + PointNumbers.list(unmeasured));
    }
    if (units.planM().isEmpty()) {
      assumptions.add(
          new Assumption(
              "elevation.unit",
              VerticalUnit.ofMetres(units.usualM(), "").name(),
              name + " does not name its unit; taken to be that of the working CRS"));
    }
    if (units.heightM().isEmpty()) {
      assumptions.add(
          new Assumption(
              "elevation.vertical-unit",
              VerticalUnit.ofMetres(units.heightOrUsualM(), "").name(),
              name + " does not name the unit of its elevations; taken to be that of its places"));
    }
    String description =
        String.format(
            Locale.ROOT,
            "%s: %d shots, columns %s %s, %s, %s, places in %s, elevations in %s",
            name,
            shots.size(),
            columns.order(),
            toldBy,
            dialect.words(),
            text.charset().name(),
            VerticalUnit.ofMetres(units.planOrUsualM(), "").name(),
            VerticalUnit.ofMetres(units.heightOrUsualM(), "").name());
    List<Shot> kept = new ShotSieve(name, place, warnings).keep(shots);
    return new Shots(
        name,
        kept,
        List.of(),
        Optional.empty(),
        List.of(description),
        UsualAccuracy.ROD,
        assumptions,
        warnings);
  }

  /** A record's shot, NaN for an elevation that is blank; empty where its place is no numbers. */
  private Optional<Shot> shot(List<String> fields, String line) {
    double x = dialect.number(field(fields, columns.easting())) * units.planOrUsualM();
    double y = dialect.number(field(fields, columns.northing())) * units.planOrUsualM();
    String height = field(fields, columns.elevation());
    double z = dialect.number(height) * units.heightOrUsualM();
    boolean heightWrong = !Double.isFinite(z) && !height.isEmpty();
    if (!Double.isFinite(x) || !Double.isFinite(y) || heightWrong) {
      return Optional.empty();
    }
    String id = field(fields, columns.id());
    String code =
        columns.code() < 0 || columns.code() >= fields.size()
            ? ""
            : String.join(" ", fields.subList(columns.code(), fields.size())).strip();
    if (ShotSieve.isVoidMark(dialect.number(height))) {
      z = Double.NaN;
    }
    return Optional.of(new Shot(id.isEmpty() ? line : id, x, y, z, code));
  }

  private static String field(List<String> fields, int column) {
    return column >= 0 && column < fields.size() ? fields.get(column) : "";
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(text.file().toString(), what, mend);
  }
}
