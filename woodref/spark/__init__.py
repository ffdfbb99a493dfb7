"""A catalog on a cluster: the formulas of one board on the columns of a Spark frame.

Needs the extra ``woodref[spark]`` and a Java runtime.
"""

from woodref.spark.estimate import estimate

__all__ = ["estimate"]
