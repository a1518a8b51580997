/** How much water a storm brings, how fast, and across which stretch of the property line. */
package org.yardfall.runoff;
