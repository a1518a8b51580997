package org.yardfall.site;

/**
 * One thing wrong with the input, said so that its owner can mend it.
 *
 * @param source the file, option or site-file key that is wrong
 * @param what what is wrong with it, in one sentence without a full stop
 * @param mend what to do about it, in one sentence without a full stop; may be empty
 */
public record Problem(String source, String what, String mend) {

  /** The problem as the one line that a person reads. */
  public String line() {
    String line = source + ": " + what;
    return mend.isEmpty() ? line : line + "; " + mend;
  }
}
