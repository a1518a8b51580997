package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.WorkingCrs;

/**
 * The ground of a site from rasters that shots tie to the job's bench mark. The raster is only
 * moved and bent where the user asks for it; what the shots say of it is told in any case.
 */
final class TiedSource implements ElevationSource {

  private static final double BLEND_M = 10;
  private static final double FOOT_M = 0.3048;

  private final RasterSource raster;
  private final Shots shots;
  private final SurveyedFeatures features;
  private final RasterTie tie;
  private final boolean correct;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();
  private final List<String> lines = new ArrayList<>();

  TiedSource(RasterSource raster, ElevationInput input, WorkingCrs crs, Geometry lot) {
    this.raster = raster;
    this.correct = input.shotInput().correct();
    Envelope extent = raster.extentM();
    this.shots =
        ShotFile.read(
            input,
            crs,
            lot == null
                ? new ExpectedPlace(new GeometryFactory().toGeometry(extent), "the raster")
                : new ExpectedPlace(lot, "the lot"));
    FieldCodes codes = new FieldCodes(input.shotInput().roles());
    this.features = SurveyedFeatures.of(shots, codes);
    List<Shot> onGround =
        shots.shots().stream()
            .filter(s -> codes.role(s).onGround())
            .filter(s -> extent.contains(s.x(), s.y()))
            .toList();
    ElevationGrid ground = onGround.isEmpty() ? null : under(onGround);
    this.tie = ground == null ? null : RasterTie.of(onGround, ground);
    if (tie == null || tie.used().isEmpty()) {
      throw new BadInputException(
          shots.source(),
          "none of its shots lies on the raster",
          "check elevation.columns, elevation.unit and site.crs");
    }
    assumptions.addAll(shots.assumptions());
    warnings.addAll(shots.warnings());
    lines.addAll(shots.description());
    lines.add("before: " + tie.line());
    if (correct) {
      RasterTie after = RasterTie.of(onGround, tie.correct(ground, BLEND_M));
      lines.add("after moving and bending the raster to them: " + after.line());
      assumptions.add(
          new Assumption(
              "elevation.correct",
              String.format(
                  Locale.ROOT,
                  "raster moved by %+.3f m, and bent to the shots within %.0f m of each",
                  tie.offsetM(),
                  BLEND_M),
              "the median of "
                  + tie.used().size()
                  + " shots; distance common practice, no source"));
    } else {
      sayOffset(input);
    }
  }

  private ElevationGrid under(List<Shot> onGround) {
    Envelope window = new Envelope();
    onGround.forEach(shot -> window.expandToInclude(shot.x(), shot.y()));
    window.expandBy(2 * raster.cellM());
    return raster.read(window).ground();
  }

  private void sayOffset(ElevationInput input) {
    double tolerable = Math.max(input.accuracyM().orElse(0.10), tie.spreadM());
    if (Math.abs(tie.offsetM()) <= tolerable) {
      return;
    }
    double shot = tie.used().get(0).shot().z();
    double ground = shot - tie.used().get(0).offM();
    boolean feet =
        Math.abs(shot * FOOT_M / ground - 1) < 0.02 || Math.abs(shot / FOOT_M / ground - 1) < 0.02;
    warnings.add(
        String.format(
            Locale.ROOT,
            "the shots of %s stand %.2f m %s the raster, more than its accuracy%s; inverts and"
                + " bench marks of the shots do not fit it; elevation.correct: true moves the raster"
                + " to the shots",
            shots.source(),
            Math.abs(tie.offsetM()),
            tie.offsetM() < 0 ? "below" : "above",
            feet ? ", as feet stand to metres: check elevation.vertical-unit" : ""));
  }

  @Override
  public SurveyedFeatures features() {
    return features;
  }

  @Override
  public Envelope extentM() {
    return raster.extentM();
  }

  @Override
  public double cellM() {
    return raster.cellM();
  }

  @Override
  public Terrain read(Envelope windowM) {
    Terrain own = raster.read(windowM);
    return new Terrain(
        correct ? tie.correct(own.ground(), BLEND_M) : own.ground(),
        joined(own.sources(), lines),
        own.accuracyM(),
        own.accuracyStated(),
        correct ? 0 : own.stepM(),
        own.verticalDatum(),
        joined(own.assumptions(), assumptions),
        joined(own.warnings(), warnings));
  }

  private static <T> List<T> joined(List<T> first, List<T> second) {
    List<T> all = new ArrayList<>(first);
    all.addAll(second);
    return all;
  }

  @Override
  public List<String> describe() {
    return joined(raster.describe(), lines);
  }
}
