package org.yardfall.site;

import java.nio.file.Path;
import java.util.OptionalDouble;

/**
 * The design storm as the user gave it: a depth with a duration, or a table of intensities.
 *
 * @param depthM rain depth in metres; empty where a table is given
 * @param durationS its duration in seconds; with a table the one whose depth runs off, and empty
 *     where that is left open
 * @param table the intensity table (CSV), or null
 * @param returnPeriodYears return period in years, where stated
 */
public record StormInput(
    OptionalDouble depthM,
    OptionalDouble durationS,
    Path table,
    OptionalDouble returnPeriodYears) {}
