package org.yardfall.sheet;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.yardfall.fieldwork.PrintPage;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Result;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.site.Assumption;
import org.yardfall.site.Parcel;
import org.yardfall.site.UnitSystem;

/**
 * What the ground does along a lot's property line, as an exhibit to lay before a neighbour, an
 * authority or an expert: where water arrives and leaves, over which width, from how much ground of
 * whose parcels, how much and how fast in the design storm, by which data and method, and what all
 * that does not tell. It is worded as evidence of what the ground does; who is answerable is not
 * for it to say.
 */
public final class EvidencePage {

  private static final List<String> HEADS =
      List.of(
          "<Place",
          "<Across the line",
          "<Easting, northing",
          "<Flows toward",
          "Width",
          "Contributing area",
          "Volume",
          "Peak",
          "<How",
          "<Contributing area by parcel");

  /** Longer side of the map in points: high enough to read its labels, low enough for a page. */
  private static final double MAP_POINTS = 500;

  private final Result result;
  private final UnitSystem units;

  private EvidencePage(Result result, UnitSystem units) {
    this.result = result;
    this.units = units;
  }

  /**
   * The page as one HTML file that needs no other; no drain of the result enters into it.
   *
   * @throws IOException if its map cannot be encoded
   */
  public static String of(Result result, UnitSystem units) throws IOException {
    return new EvidencePage(result.withoutDrains(), units).page();
  }

  private String page() throws IOException {
    String lot = result.site().lot().map(Parcel::id).map(CleanText::of).orElse("");
    PrintPage page =
        PrintPage.dense("Surface water across the property line of lot " + lot + ": evidence");
    page.paragraph(
        "This page tells what the ground as measured does with the water of a design storm, as far"
            + " as the data below show it, without any drain that may be planned. It says nothing"
            + " of who is answerable for it, of what any law asks, or of groundwater. A draft: no"
            + " survey and no expert's report.");
    BufferedImage map = MapPicture.image(result, units, MAP_POINTS);
    page.drawing(
        String.format(
            Locale.ROOT,
            "<img alt=\"Map with the places and directions of the flows\" style=\"width:%dpt;"
                + "max-width:100%%\" src=\"data:image/png;base64,%s\">",
            map.getWidth() / 2,
            Base64.getEncoder().encodeToString(Pictures.png(map))));
    flows(page, "Water that arrives from beyond the line", true);
    flows(page, "Water that leaves over the line", false);
    balance(page);
    page.heading("Data").list(SourceNotes.of(result, units));
    page.heading("Assumed").list(assumed());
    page.heading("Method").list(method());
    page.heading("What this does not tell").list(limits());
    return page.toString();
  }

  private void flows(PrintPage page, String heading, boolean enters) {
    List<BoundaryFlow> flows =
        result.flows().stream().filter(flow -> flow.enters() == enters).toList();
    page.heading(heading);
    if (flows.isEmpty()) {
      page.paragraph("None was found.");
      return;
    }
    page.table(HEADS);
    for (BoundaryFlow flow : flows) {
      page.row(
          List.of(
              "<" + flow.id(),
              "<" + whose(flow.neighbour()),
              String.format(
                  Locale.ROOT,
                  "<%.1f, %.1f",
                  result.site().crs().toCrsUnit(flow.at().x),
                  result.site().crs().toCrsUnit(flow.at().y)),
              String.format(Locale.ROOT, "<%.0f° from grid north", flow.bearingDeg()),
              units.length(flow.widthM()),
              (flow.atLeast() ? "at least " : "") + units.area(flow.areaM2()),
              (flow.atLeast() ? "at least " : "") + units.water(flow.volumeM3()),
              (flow.atLeast() ? "at least " : "") + units.flow(flow.peakM3S()),
              "<" + (flow.concentrated() ? "concentrated" : "as sheet flow") + downstream(flow),
              "<" + shares(flow)));
    }
    page.endTable();
  }

  private static String whose(String parcel) {
    return parcel.isEmpty() ? "ground in no parcel" : "parcel " + CleanText.of(parcel);
  }

  private static String downstream(BoundaryFlow flow) {
    return flow.downstream().isEmpty()
        ? ""
        : "; then over "
            + flow.downstream().stream().map(EvidencePage::whose).collect(Collectors.joining(", "));
  }

  private String shares(BoundaryFlow flow) {
    return flow.areaByParcelM2().entrySet().stream()
        .map(e -> whose(e.getKey()) + ": " + units.area(e.getValue()))
        .collect(Collectors.joining("; "));
  }

  private void balance(PrintPage page) {
    result.ledger().map(InflowLedger::balance).map(this::balance).ifPresent(page::paragraph);
  }

  /** Where all the water of the storm is in the end. */
  private String balance(InflowLedger.Balance balance) {
    List<String> goes = new ArrayList<>();
    goes.add(units.water(balance.infiltratedM3()) + " soaks in or wets the ground");
    if (balance.standingM3() > 0) {
      goes.add(units.water(balance.standingM3()) + " is left standing on the lot");
    }
    if (balance.inletM3() > 0) {
      goes.add(units.water(balance.inletM3()) + " runs into catch basins");
    }
    if (balance.heldBeyondM3() > 0) {
      goes.add(units.water(balance.heldBeyondM3()) + " stays in a low spot beyond the line");
    }
    return "In the design storm "
        + units.water(balance.inflowM3())
        + " arrives over the line and "
        + units.water(balance.ownRainM3())
        + " of rain falls on the lot; of both together "
        + String.join(", ", goes)
        + ", and "
        + units.water(balance.outflowM3())
        + " leaves over the line.";
  }

  /** What the numbers of this page rest on that was not given. */
  private List<String> assumed() {
    List<Assumption> mine = new ArrayList<>();
    result.assumptions().stream()
        .filter(a -> !a.about().matches("(drain|route|outlet-rules|prices)\\b.*"))
        .forEach(mine::add);
    return AssumedNotes.of(mine, new Wording(result, units)::of).stream()
        .map(note -> note.sentence() + (note.practice() ? " (common practice, no source)" : ""))
        .map(CleanText::of)
        .toList();
  }

  private List<String> method() {
    return List.of(
        "Flow directions: down the slope from cell to cell of the elevation grid, where it points"
            + " between two cells to one or the other by turns; low spots filled to their spill,"
            + " flats resolved toward lower ground.",
        "Runoff depth: NRCS curve number by cover and hydrologic soil group (NEH 630, chapter 10).",
        "Peak: rational method, time of concentration by the velocity method along the longest path"
            + " (NEH 630, chapter 15), intensity of the rain named under Data and Assumed.",
        "Width: the length of the property line over which the water crosses. Concentrated: it has"
            + " run together into a channel or swale; sheet flow: it has not.",
        "Every number stands, with what was assumed, in results.json beside this page; whoever has"
            + " the same data and inputs gets the same numbers.");
  }

  private List<String> limits() {
    List<String> limits = new ArrayList<>();
    if (result.flows().stream().anyMatch(BoundaryFlow::atLeast)) {
      limits.add(
          "Where it says at least, the known ground ends before what drains there does: more water"
              + " may come.");
    }
    limits.add(
        String.format(
            Locale.ROOT,
            "Elevations are known to about %s (RMSE): where neighbouring ground differs by less than"
                + " that, water may run otherwise than shown.",
            units.elevation(result.terrain().accuracyM())));
    limits.add(
        "The way of water from cell to cell is true to a cell and a half. Along a side of the lot"
            + " that follows the slope, from which neighbour a thread one or two cells wide comes"
            + " is unsure.");
    limits.add(
        "The ground is as it was when it was measured. Walls, fences, kerbs, pipes and gutters"
            + " count only as far as the data hold them.");
    limits.add("What the ground was like before, or who changed it, the data do not show.");
    limits.add(
        "Parcel lines are those of the file, not of a boundary survey. Groundwater is not seen.");
    limits.add("An observation in rain, with photographs and dates, is worth more than any model.");
    return limits;
  }
}
