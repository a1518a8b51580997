package org.yardfall.site;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A site as asked for, before its files are read.
 *
 * @param source what problems with it are said of: the site file's name or the command line
 * @param outlets the outlets given in place, in the working CRS's own unit
 * @param assumptions what was not given and assumed so far
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
    List<Assumption> assumptions) {

  /** The same request for another lot. */
  SiteRequest withLot(String lot) {
    return new SiteRequest(
        source,
        name,
        inputs.withLot(lot),
        outlets,
        soil,
        storm,
        drain,
        prices,
        elevation,
        assumptions);
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
      String permitNote) {}
}
