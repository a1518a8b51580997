package org.yardfall.sheet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.yardfall.fieldwork.PrintPage;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Result;
import org.yardfall.runoff.BoundaryFlow;
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
          "<Other side",
          "<Position",
          "<Flows toward",
          "Width",
          "Ground",
          "Volume",
          "Peak",
          "<How",
          "<Of that ground");

  private final Result result;
  private final UnitSystem units;

  private EvidencePage(Result result, UnitSystem units) {
    this.result = result;
    this.units = units;
  }

  /**
   * Writes the page as one HTML file that needs no other.
   *
   * @param map a picture of the site as PNG; left out where there is none
   * @throws IOException if the file cannot be written
   */
  public static void write(Result result, UnitSystem units, Path map, Path file)
      throws IOException {
    Files.writeString(file, new EvidencePage(result, units).page(map));
  }

  private String page(Path map) throws IOException {
    String lot = result.site().lot().map(Parcel::id).map(CleanText::of).orElse("");
    PrintPage page =
        PrintPage.dense("Surface water across the property line of lot " + lot + ": evidence");
    page.paragraph(
        "This page tells what the surface of the ground does with the water of a design storm, as"
            + " far as the data below show it. It says nothing of who is answerable for it, of what"
            + " any law asks, or of groundwater. A draft; not a survey, not an expert's report.");
    if (Files.isRegularFile(map)) {
      page.drawing(
          "<img alt=\"Map with the places and directions of the flows\" style=\"max-width:100%;"
              + "max-height:150mm\" src=\"data:image/png;base64,"
              + Base64.getEncoder().encodeToString(Files.readAllBytes(map))
              + "\">");
    }
    flows(page, "Water that arrives from beyond the line", true);
    flows(page, "Water that leaves over the line", false);
    balance(page);
    page.heading("Data").list(SourceNotes.of(result, units));
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
              "<" + (flow.concentrated() ? "in a thread" : "as a sheet") + downstream(flow),
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
        .map(e -> whose(e.getKey()) + " " + units.area(e.getValue()))
        .collect(Collectors.joining("; "));
  }

  private void balance(PrintPage page) {
    result
        .ledger()
        .ifPresent(
            ledger ->
                page.paragraph(
                    "In the design storm "
                        + units.water(ledger.balance().inflowM3())
                        + " arrives over the line and "
                        + units.water(ledger.balance().outflowM3())
                        + " leaves over it."));
  }

  private List<String> method() {
    return List.of(
        "Flow directions: steepest descent between the cells of the elevation grid, low spots"
            + " filled to their spill, flats resolved toward lower ground.",
        "Runoff depth: NRCS curve number by cover and hydrologic soil group (NEH 630, chapter 10).",
        "Peak: rational method, time of concentration by the velocity method along the longest path"
            + " (NEH 630, chapter 15), intensity of the rain given under Data.",
        "Width: the length of the property line over which the water crosses; a thread runs"
            + " together, a sheet does not.",
        "Every number stands, with what was assumed, in results.json beside this page; whoever has"
            + " the same data and inputs gets the same numbers.");
  }

  private List<String> limits() {
    List<String> limits = new ArrayList<>();
    if (result.flows().stream().anyMatch(BoundaryFlow::atLeast)) {
      limits.add(
          "Where it says at least, the known ground ends above the place: more water may come.");
    }
    limits.add(
        String.format(
            Locale.ROOT,
            "Heights are known to about %s (RMSE): directions on ground flatter than that may be"
                + " otherwise.",
            units.elevation(result.terrain().accuracyM())));
    limits.add(
        "Water is led from cell to cell in one of eight directions. On even ground that slopes"
            + " obliquely to the grid it may run up to 22.5° beside its true way: along a side of"
            + " the lot that runs nearly with the slope, which neighbour it comes from is unsure.");
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
