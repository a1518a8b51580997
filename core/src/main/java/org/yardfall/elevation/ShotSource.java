package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.WorkingCrs;

/** The ground of a site from survey shots alone. */
final class ShotSource implements ElevationSource {

  private final ElevationInput input;
  private final WorkingCrs crs;
  private final Shots shots;
  private final SurveyedFeatures features;
  private final ShotSurface surface;
  private final Envelope extent;
  private final double accuracyM;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  ShotSource(ElevationInput input, WorkingCrs crs, Geometry lot) {
    this.input = input;
    this.crs = crs;
    this.shots = ShotFile.read(input, crs, new ExpectedPlace(lot, "the lot"));
    this.features = SurveyedFeatures.of(shots, new FieldCodes(input.shotInput().roles()));
    this.surface = ShotSurface.of(shots, input.shotInput());
    this.extent = surface.tin().envelope();
    assumptions.addAll(shots.assumptions());
    assumptions.addAll(surface.assumptions());
    this.accuracyM =
        input.accuracyM().orElse(Math.max(shots.accuracy().rmseM(), surface.unevennessM()));
    if (input.accuracyM().isEmpty()) {
      assumptions.add(
          new Assumption(
              "elevation.accuracy",
              String.format(Locale.ROOT, "%.2f m RMSE", accuracyM),
              String.format(
                  Locale.ROOT,
                  "the greater of %s and %.3f m, the"
                      + " spread of shots about the ground that their neighbours give without them",
                  shots.accuracy().source(),
                  surface.unevennessM())));
    }
    warnings.addAll(shots.warnings());
    warnings.addAll(surface.warnings());
  }

  @Override
  public SurveyedFeatures features() {
    return features;
  }

  @Override
  public Envelope extentM() {
    return new Envelope(extent);
  }

  @Override
  public double cellM() {
    return surface.cellM();
  }

  @Override
  public Terrain read(Envelope windowM) {
    Envelope window = windowM.intersection(extent);
    if (window.isNull() || window.getWidth() <= 0 || window.getHeight() <= 0) {
      throw new BadInputException(
          shots.source(),
          "the place asked for lies outside the shots",
          "check elevation.columns, elevation.unit and site.crs, or give shots of that place");
    }
    GroundScale.check(crs, window);
    GridFrame frame = frame(window);
    ElevationGrid grid = surface.tin().grid(frame);
    boolean known = false;
    for (float z : grid.z()) {
      known |= !Float.isNaN(z);
    }
    if (!known) {
      throw new BadInputException(
          shots.source(),
          "there is no ground between shots in the window that is asked for",
          "give shots of that place");
    }
    List<String> sources = new ArrayList<>(shots.description());
    residualLine(grid, sources);
    return new Terrain(
        grid,
        sources,
        accuracyM,
        Optional.of(surface.support(frame)),
        input.accuracyM().isPresent(),
        0,
        input.verticalDatum() == null ? "" : input.verticalDatum(),
        assumptions,
        warnings);
  }

  private void residualLine(ElevationGrid grid, List<String> lines) {
    List<ShotResidual> residuals = surface.residuals(grid);
    ShotSurface.worst(residuals)
        .ifPresent(
            worst ->
                lines.add(
                    String.format(
                        Locale.ROOT,
                        "%s: %d shots stand off the gridded ground by %.3f m RMSE, at most %.3f m"
                            + " at %s",
                        shots.source(),
                        residuals.size(),
                        Math.sqrt(
                            residuals.stream()
                                .mapToDouble(r -> r.offM() * r.offM())
                                .average()
                                .orElseThrow()),
                        Math.abs(worst.offM()),
                        worst.shot().id())));
  }

  private GridFrame frame(Envelope window) {
    try {
      return GridFrame.covering(window, surface.cellM());
    } catch (IllegalArgumentException e) {
      throw new BadInputException(
          shots.source(), "too many cells: " + e.getMessage(), "give a larger elevation.cell");
    }
  }

  @Override
  public List<String> describe() {
    List<String> lines = new ArrayList<>(shots.description());
    double[] z = surface.tin().z();
    int[] corners = surface.tin().corners();
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int corner : corners) {
      low = Math.min(low, z[corner]);
      high = Math.max(high, z[corner]);
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "working plane %s: %d triangles over %.0f m², one shot every %.3g m, cells of %.4g m,"
                + " extent %.1f to %.1f, %.1f to %.1f in the CRS's unit, elevations %.2f to %.2f m,"
                + " vertical datum %s",
            crs.name(),
            surface.tin().triangles(),
            surface.tin().areaM2(),
            surface.spacingM(),
            surface.cellM(),
            crs.toCrsUnit(extent.getMinX()),
            crs.toCrsUnit(extent.getMaxX()),
            crs.toCrsUnit(extent.getMinY()),
            crs.toCrsUnit(extent.getMaxY()),
            low,
            high,
            input.verticalDatum() == null || input.verticalDatum().isBlank()
                ? "not named"
                : input.verticalDatum()));
    return lines;
  }
}
