package org.yardfall.layer;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.TakeOff;
import org.yardfall.site.UnitSystem;

/**
 * Writes the quantities and prices of all designs as a table for a spreadsheet (RFC 4180). Text
 * that a spreadsheet would take for a formula is marked as text.
 */
public final class TakeOffCsv {

  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180
          .builder()
          .setHeader(
              "route",
              "code",
              "item",
              "unit",
              "needed",
              "sold",
              "unit_price",
              "amount",
              "rule",
              "how")
          .get();

  private TakeOffCsv() {}

  /** Writes the table, quantities and unit prices in the given units. */
  public static void write(List<DrainDesign> designs, UnitSystem units, Path file)
      throws IOException {
    try (Writer out = Files.newBufferedWriter(file);
        CSVPrinter table = new CSVPrinter(out, FORMAT)) {
      for (DrainDesign design : designs) {
        for (TakeOff.Line line : design.takeOff().lines()) {
          write(table, design.routeId(), line, units);
        }
      }
    }
  }

  private static void write(CSVPrinter table, String route, TakeOff.Line line, UnitSystem units)
      throws IOException {
    TakeOff.Measure measure = line.measure();
    OptionalDouble price = line.unitPrice();
    table.printRecord(
        CleanText.cell(route),
        line.code(),
        CleanText.cell(units.restateEarth(line.item())),
        measure.unit(units),
        fine(measure.quantity(units, line.needed()), 4),
        fine(measure.quantity(units, line.sold()), 4),
        price.isPresent() ? fine(measure.price(units, price.getAsDouble()), 6) : "",
        line.amount().isPresent() ? money(line.amount().getAsDouble()) : "",
        CleanText.cell(units.restateEarth(line.rule())),
        CleanText.cell(units.restateEarth(line.how())));
  }

  /** Close enough for quantity times price to come to the amount. */
  private static String fine(double value, int decimals) {
    return BigDecimal.valueOf(value)
        .setScale(decimals, RoundingMode.HALF_UP)
        .stripTrailingZeros()
        .toPlainString();
  }

  private static String money(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }
}
