package org.yardfall.site;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;

/** Pieces of a made-up site: what a test does not name is not known, or as usual. */
public final class Given {

  private static final OptionalDouble UNKNOWN = OptionalDouble.empty();

  private Given() {}

  /** Limits with the usual vertical clearance and bore, laid in the fewest grades. */
  public static DrainLimits limits(
      double minGrade,
      double maxGrade,
      double minCoverM,
      double maxDepthM,
      double setbackM,
      double fromBuildingM,
      double trenchWidthM,
      double pipeOutsideM,
      double pipeInsideM) {
    return new DrainLimits(
        minGrade,
        maxGrade,
        minCoverM,
        maxDepthM,
        setbackM,
        fromBuildingM,
        trenchWidthM,
        pipeOutsideM,
        pipeInsideM,
        0.3048,
        7.5,
        DrainLimits.GradeLine.FEWEST_GRADES);
  }

  /** Limits like others, with another least grade. */
  public static DrainLimits falling(DrainLimits like, double minGrade) {
    return like(like, minGrade, like.gradeLine());
  }

  /** Limits with the pipe laid in another way. */
  public static DrainLimits laid(DrainLimits like, DrainLimits.GradeLine gradeLine) {
    return like(like, like.minGrade(), gradeLine);
  }

  private static DrainLimits like(
      DrainLimits like, double minGrade, DrainLimits.GradeLine gradeLine) {
    return new DrainLimits(
        minGrade,
        like.maxGrade(),
        like.minCoverM(),
        like.maxDepthM(),
        like.setbackM(),
        like.fromBuildingM(),
        like.trenchWidthM(),
        like.pipeOutsideM(),
        like.pipeInsideM(),
        like.verticalClearanceM(),
        like.boreMaxLengthM(),
        gradeLine);
  }

  /** The usual rules where a lid takes a head in metres. */
  public static OutletRules lidTaking(double headM) {
    return rules(headM, false);
  }

  /** The usual rules for water that is pumped. */
  public static OutletRules pumped() {
    return rules(OutletRules.usual().lidLossM(), true);
  }

  private static OutletRules rules(double lidLossM, boolean pumped) {
    OutletRules usual = OutletRules.usual();
    return new OutletRules(
        usual.fromHouseM(),
        usual.fromLineM(),
        usual.fromRightOfWayM(),
        usual.dryWellFromHouseM(),
        usual.dryWellConductivityMS(),
        lidLossM,
        pumped,
        usual.outageS(),
        usual.pumpedToStreet(),
        usual.splashBlockSlope(),
        usual.steepestSlope(),
        usual.freeboardM());
  }

  /** A storm of a day. */
  public static StormInput storm(double depthM) {
    return new StormInput(OptionalDouble.of(depthM), OptionalDouble.of(86_400), null, UNKNOWN);
  }

  /** A soil of which only the hydrologic group is known. */
  public static Soil soil(char group) {
    return soil(group, UNKNOWN, UNKNOWN);
  }

  /** A soil of a conductivity in m/s, its water table at an elevation in metres. */
  public static Soil soil(char group, OptionalDouble conductivityMS, OptionalDouble waterTableM) {
    return soil(group, conductivityMS, null, waterTableM, UNKNOWN, UNKNOWN);
  }

  /** A soil of a conductivity in m/s that freezes to a depth in metres. */
  public static Soil freezing(char group, OptionalDouble conductivityMS, double frostDepthM) {
    return soil(group, conductivityMS, null, UNKNOWN, UNKNOWN, OptionalDouble.of(frostDepthM));
  }

  /** A soil with rock at a depth in metres. */
  public static Soil overRock(char group, double rockDepthM) {
    return soil(group, UNKNOWN, null, UNKNOWN, OptionalDouble.of(rockDepthM), UNKNOWN);
  }

  /** A soil of a conductivity in m/s and a grading curve. */
  public static Soil graded(char group, double conductivityMS, Soil.GrainSizes grains) {
    return soil(group, OptionalDouble.of(conductivityMS), grains, UNKNOWN, UNKNOWN, UNKNOWN);
  }

  private static Soil soil(
      char group,
      OptionalDouble conductivityMS,
      Soil.GrainSizes grains,
      OptionalDouble waterTableM,
      OptionalDouble rockDepthM,
      OptionalDouble frostDepthM) {
    return new Soil(
        group,
        conductivityMS,
        grains,
        waterTableM,
        rockDepthM,
        frostDepthM,
        UNKNOWN,
        UNKNOWN,
        Soil.FilterClass.LESS_CRITICAL,
        null,
        Map.of());
  }

  /** An obstacle of unknown depth, with the same clearance on every side. */
  public static Obstacle obstacle(
      String id,
      Obstacle.Kind kind,
      Geometry shape,
      double clearanceM,
      Obstacle.Passage passage,
      double verticalClearanceM) {
    return obstacle(id, kind, shape, clearanceM, passage, UNKNOWN, verticalClearanceM);
  }

  /** An obstacle with the same clearance on every side. */
  public static Obstacle obstacle(
      String id,
      Obstacle.Kind kind,
      Geometry shape,
      double clearanceM,
      Obstacle.Passage passage,
      OptionalDouble bottomM,
      double verticalClearanceM) {
    return new Obstacle(
        id,
        kind,
        shape,
        clearanceM,
        passage,
        bottomM,
        verticalClearanceM,
        UNKNOWN,
        UNKNOWN,
        false,
        UNKNOWN);
  }

  /** Ground from rasters that say the rest themselves. */
  public static ElevationInput elevation(Path... rasters) {
    return new ElevationInput(
        List.of(rasters), null, null, UNKNOWN, "", UNKNOWN, null, ShotInput.NONE, "");
  }
}
