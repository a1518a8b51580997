/** Yard drainage designed from the lay of the land; start at {@link org.yardfall.Screening}. */
package org.yardfall;
