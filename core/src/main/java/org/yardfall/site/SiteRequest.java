package org.yardfall.site;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A site as asked for, before its files are read.
 *
 * @param source what problems with it are said of: the site file's name or the command line
 * @param outlets the outlets given in place, in the working CRS's own unit
 * @param assumptions what was not given and assumed so far
 * @param assumedRules rules for outlets that were not given, each an assumption where it decides
 */
record SiteRequest(
    String source,
    String name,
    SiteInputs inputs,
    List<PlacedOutlet> outlets,
    Soil soil,
    StormInput storm,
    DrainLimits drain,
    Prices prices,
    ElevationInput elevation,
    OutletRules outletRules,
    List<Assumption> assumptions,
    List<Assumption> assumedRules) {

  /** The same request for another lot. */
  SiteRequest withLot(String lot) {
    return with(inputs.withLot(lot));
  }

  /** The same request with other drains drawn. */
  SiteRequest withPinned(LayerSource lines) {
    return with(inputs.withPinned(lines));
  }

  private SiteRequest with(SiteInputs other) {
    return new SiteRequest(
        source,
        name,
        other,
        outlets,
        soil,
        storm,
        drain,
        prices,
        elevation,
        outletRules,
        assumptions,
        assumedRules);
  }

  /** An outlet given by its easting and northing in the working CRS's own unit. */
  record PlacedOutlet(
      String source,
      String id,
      Outlet.Kind kind,
      double easting,
      double northing,
      OptionalDouble invertM,
      OptionalDouble waterLevelM,
      OptionalDouble lidM,
      String permitNote,
      OptionalDouble usualLevelM) {}
}
