package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.LongAdder;

/**
 * Tells cells without an elevation from the others: those that equal the declared NoData value as
 * the file can store it, those that are no numbers, and those with a value that programs commonly
 * put where they know nothing, declared or not. May be used by several threads.
 */
final class Voids {

  /** Values that no ground has but that many programs write for "not known". */
  private static final double[] SENTINELS = {-9999, -99_999, -32_768, -32_767};

  /** Beyond this a stored value is a mark, not a height in any unit. */
  private static final double GREATEST_HEIGHT = 2e9;

  private final double declared;
  private final boolean hugeDeclared;
  private final LongAdder[] undeclared = new LongAdder[SENTINELS.length + 1];

  Voids(RasterHeader header) {
    double value = header.noData().orElse(Double.NaN);
    declared = header.type().cast(value);
    hugeDeclared = Math.abs(value) >= GREATEST_HEIGHT;
    for (int i = 0; i < undeclared.length; i++) {
      undeclared[i] = new LongAdder();
    }
  }

  /** Whether a stored value stands for no elevation. */
  boolean isVoid(double stored) {
    if (stored > -9999 && stored < GREATEST_HEIGHT && stored != declared) {
      return false;
    }
    if (stored == declared || Double.isNaN(stored)) {
      return true;
    }
    if (Math.abs(stored) >= GREATEST_HEIGHT) {
      if (!hugeDeclared) {
        undeclared[SENTINELS.length].increment();
      }
      return true;
    }
    for (int i = 0; i < SENTINELS.length; i++) {
      if (stored == SENTINELS[i]) {
        undeclared[i].increment();
        return true;
      }
    }
    return false;
  }

  /** What was taken as void without being declared, in words. */
  List<String> warnings() {
    List<String> warnings = new ArrayList<>();
    for (int i = 0; i < undeclared.length; i++) {
      long cells = undeclared[i].sum();
      if (cells > 0) {
        String mark =
            i < SENTINELS.length
                ? String.format(Locale.ROOT, "%.0f", SENTINELS[i])
                : "a number beyond any height";
        warnings.add(
            String.format(
                Locale.ROOT,
                "%d cells hold %s without that being declared as NoData; they are taken as unknown",
                cells,
                mark));
      }
    }
    return warnings;
  }
}
