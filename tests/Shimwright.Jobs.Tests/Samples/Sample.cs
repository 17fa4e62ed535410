namespace Shimwright.Jobs.Tests.Samples;

/// <summary>Small jobs that are right, for tests to spoil.</summary>
internal static class Sample
{
    /// <summary>Two valves with shims, every member that the format has, ready for estimate, plan and verdict.</summary>
    public static JobDraft Shims() => new(
        """
        {
          "format": "shimwright-job/1",
          "engine": {
            "name": "Bench single", "valvetrain": "shim-under-bucket", "ratio": 1.0, "temperature": {"kappaMmPerC": 0.0},
            "valves": [
              {
                "id": "I1", "cylinder": 1, "side": "intake", "access": "intake cam", "band": [0.12, 0.18],
                "events": {"opens": 20, "closes": 55}, "alsoOffHeel": [{"from": 30, "length": 15}]
              },
              {"id": "E1", "cylinder": 1, "side": "exhaust", "access": "exhaust cam", "band": [0.20, 0.26]}
            ],
            "layout": {
              "firingOrder": [1], "firingAngles": [0], "marks": [10], "stopsAt": "marks", "rampDeg": 20, "eventsAtMm": 1,
              "intake": {"opensBtdc": 20, "closesAbdc": 55}, "exhaust": {"opensBbdc": 55, "closesAtdc": 20}
            },
            "sense": "opening", "decompressor": {"valves": ["I1"], "liftsWhenTurned": "backwards"},
            "wear": {"clock": "hours", "interval": 30, "lossPerInterval": 0.02, "spread": 0.02}
          },
          "history": [],
          "rounds": [],
          "check": {
            "clock": 118, "temperatureC": 20, "loss": {"shared": 0.04, "own": 0.02}, "blades": [0.05, 0.10, 0.13, 0.15],
            "readings": [
              {"valve": "I1", "trials": [{"blade": 0.10, "feel": "loose"}, {"blade": 0.13, "feel": "light", "leaves": 1}]},
              {"valve": "E1", "value": 0.17, "u": 0.01, "bucketTurns": true}
            ],
            "fitted": [
              {"valve": "I1", "thickness": 2.62, "by": "micrometer"},
              {"valve": "E1", "thickness": 2.75, "by": "marked"}
            ]
          },
          "recheck": {
            "temperatureC": 21,
            "changed": [{
              "valve": "E1",
              "from": {"thickness": 2.75, "by": "marked"},
              "to": {"thickness": 2.70, "by": "calliper"}
            }],
            "readings": [{"valve": "E1", "value": 0.22, "u": 0.01, "trials": [{"blade": 0.20, "feel": "loose", "leaves": 1}]}],
            "dryFits": []
          },
          "stock": {
            "drawer": [{"thickness": 2.70, "by": "calliper", "count": 2, "marked": 2.70}],
            "buy": {"from": 2.5, "to": 2.9, "step": 0.1, "price": 8.0}
          },
          "costs": {
            "redo": 60, "access": {"intake cam": 25, "exhaust cam": 25}, "swap": 3, "disturb": 5, "minutesPerCurrency": 1.0, "horizon": 0
          },
          "settings": {
            "feel": {"firm": -0.025, "light": -0.005, "loose": 0.017, "spread": 0.006, "slip": 0.02, "doubt": 0.005},
            "blade": 0.003, "seating": 0.004,
            "minutes": {"blade": 0.5, "stack": 1, "bucket": 0.2, "micrometer": 0.7, "depth": 4, "dryFit": 10},
            "instruments": {
              "marked": {"repeat": 0.008, "shared": 0},
              "calliper": {"repeat": 0.006, "shared": 0.01},
              "micrometer": {"repeat": 0.002, "shared": 0.002}
            },
            "keepFloor": 0.5, "fitFloor": 0.05, "passFloor": 0.8, "risk": 0.10, "serviceLevel": 0.90
          }
        }
        """);

    /// <summary>What was felt at E1 with 2.65 in it, before the 2.70 of the re-check went in; every member that a dry fit has.</summary>
    public static string DryFit =>
        """
        {
          "access": "exhaust cam",
          "changed": [{"valve": "E1", "from": {"thickness": 2.75, "by": "marked"}, "to": {"thickness": 2.65, "by": "marked"}}],
          "readings": [{"valve": "E1", "value": 0.27, "u": 0.01, "trials": [{"blade": 0.25, "feel": "light", "leaves": 1}]}]
        }
        """;

    /// <summary>Two valves with screws, ready for estimate, plan and verdict.</summary>
    public static JobDraft Screws() => new(
        """
        {
          "format": "shimwright-job/1",
          "engine": {
            "name": "Bench twin", "valvetrain": "screw", "ratio": 1.3, "pitch": 0.75,
            "valves": [
              {"id": "I1", "cylinder": 1, "side": "intake", "access": "cover", "band": [0.20, 0.25]},
              {"id": "E1", "cylinder": 1, "side": "exhaust", "access": "cover", "band": [0.30, 0.35]}
            ]
          },
          "check": {
            "clock": 900,
            "readings": [{"valve": "I1", "value": 0.15}, {"valve": "E1", "value": 0.32}]
          },
          "recheck": {
            "changed": [{"valve": "I1", "turns": 0.1}],
            "readings": [{"valve": "I1", "value": 0.23}]
          }
        }
        """);

    /// <summary>The valves with shims, and a clearance from depths at both, check and re-check: one by sizes, one against a known valve.</summary>
    public static JobDraft Depths()
    {
        JobDraft draft = Shims();
        foreach (string part in new[] { "$.check", "$.recheck" })
        {
            draft.Set(part + ".camshafts", Camshafts).Append(part + ".readings", DepthOfI1);
        }

        return draft;
    }

    private const string Camshafts =
        """
        [
          {
            "name": "intake cam", "saddle": {"value": 12.5, "u": 0.004, "df": 8}, "journal": {"value": 24.96, "u": 0.002, "df": 20},
            "baseCircle": {"value": 30, "u": 0.003, "df": 20}, "play": {"value": 0.03, "u": 0.008, "df": 5}
          },
          {
            "name": "exhaust cam",
            "known": {
              "valve": "E1", "bucket": {"value": 15.16, "u": 0.005, "df": 8}, "shim": {"value": 2.75, "u": 0.003, "df": 50},
              "clearance": {"value": 0.17, "u": 0.01, "df": 30}
            }
          }
        ]
        """;

    private const string DepthOfI1 =
        """
        {"valve": "I1", "depth": {"camshaft": "intake cam", "bucket": {"value": 17.74, "u": 0.005, "df": 8}, "shim": {"value": 2.62, "u": 0.003, "df": 50}}}
        """;

    /// <summary>A past check in which one shim was changed.</summary>
    public const string PastCheck =
        """
        {
          "clock": 60, "readings": [{"valve": "I1", "value": 0.11}, {"valve": "E1", "value": 0.21}],
          "fitted": [{"valve": "I1", "thickness": 2.65, "by": "micrometer"}],
          "changed": [{"valve": "I1", "from": {"thickness": 2.65, "by": "micrometer"}, "to": {"thickness": 2.62, "by": "micrometer"}}]
        }
        """;
}
