/** Results as pages for people; draws what is there and computes nothing anew. */
package org.yardfall.sheet;
