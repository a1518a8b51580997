package org.yardfall.fieldwork;

/**
 * A stretch of a line that no shot shows.
 *
 * @param line the line
 * @param fromM station where it begins in metres
 * @param toM station where it ends in metres
 */
public record Gap(String line, double fromM, double toM) {

  /** Its length in metres. */
  public double lengthM() {
    return toM - fromM;
  }
}
