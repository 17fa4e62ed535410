namespace Shimwright.Reference.CrankStops;

/// <summary>
/// Crank positions at which manuals have valves set, and where each was published. TM is a technical manual of the United
/// States Army. What has no document that can be found is from memory and says so.
/// </summary>
internal static class PublishedTables
{
    // TM 5-3895-383-24 p. 6-60; the same in TM 5-3805-258-24-1 p. 4-28.
    public static PublishedTable InlineFour { get; } = new(
        "in-line four 1-3-4-2", [1, 3, 4, 2], [new(0, [1, 2], [1, 3]), new(360, [3, 4], [2, 4])]);

    // TM 5-3895-383-24 p. 6-61.
    public static PublishedTable InlineSix { get; } = new(
        "in-line six 1-5-3-6-2-4", [1, 5, 3, 6, 2, 4], [new(0, [1, 2, 4], [1, 3, 5]), new(360, [3, 5, 6], [2, 4, 6])]);

    // TM 5-3825-226-24; its firing order from memory.
    public static PublishedTable VeeEightFourPositions { get; } = new(
        "V8 1-2-7-3-4-5-6-8, four positions",
        [1, 2, 7, 3, 4, 5, 6, 8],
        [new(0, [1, 2], [1, 2]), new(180, [3, 7], [3, 7]), new(360, [4, 5], [4, 5]), new(540, [6, 8], [6, 8])]);

    // From memory, firing order and all; I intake, X exhaust. Bank A is cylinders 1 to 6 here, bank B 7 to 12.
    public static PublishedTable VeeTwelve { get; } = new(
        "V12",
        [1, 11, 5, 9, 3, 12, 6, 8, 2, 10, 4, 7],
        [Banks(0, "IX I X I X - I - X I IX X"), Banks(360, "- X I X I IX X IX I X - I")]);

    // From memory.
    public static PublishedTable VeeEightA { get; } = new(
        "V8 1-8-7-2-6-5-4-3", [1, 8, 7, 2, 6, 5, 4, 3], [new(0, [1, 3, 4, 5], [1, 2, 7, 8]), new(360, [2, 6, 7, 8], [3, 4, 5, 6])]);

    // From memory.
    public static PublishedTable VeeEightB { get; } = new(
        "V8 1-8-4-3-6-5-7-2", [1, 8, 4, 3, 6, 5, 7, 2], [new(0, [1, 2, 5, 7], [1, 3, 4, 8]), new(360, [3, 4, 6, 8], [2, 5, 6, 7])]);

    // 0 and 240 from memory; 480 is what is left.
    public static PublishedTable VeeSixThreePositions { get; } = new(
        "V6 1-2-3-4-5-6, three positions",
        [1, 2, 3, 4, 5, 6],
        [new(0, [1, 6], [2, 3]), new(240, [2, 3], [4, 5]), new(480, [4, 5], [1, 6])]);

    // From memory.
    public static PublishedTable VeeSixTwoPositions { get; } = new(
        "V6 1-2-3-4-5-6, two positions", [1, 2, 3, 4, 5, 6], [new(0, [1, 5, 6], [1, 2, 3]), new(360, [2, 3, 4], [4, 5, 6])]);

    // From memory: piston P at the TDC of its exhaust stroke, then the intake of one cylinder and the exhaust of another.
    public static PublishedTable RadialEighteen { get; } = Radial(
        [1, 12, 5, 16, 9, 2, 13, 6, 17, 10, 3, 14, 7, 18, 11, 4, 15, 8],
        "11:1,3 4:12,14 15:5,7 8:16,18 1:9,11 12:2,4 5:13,15 16:6,8 9:17,1 2:10,12 13:3,5 6:14,16 17:7,9 10:18,2 3:11,13 14:4,6 7:15,17 18:8,10");

    public static IReadOnlyList<PublishedTable> All { get; } =
    [
        InlineFour, InlineSix, VeeEightFourPositions, VeeTwelve, VeeEightA, VeeEightB, VeeSixThreePositions,
        VeeSixTwoPositions, RadialEighteen,
    ];

    private static PublishedPosition Banks(double angle, string marks)
    {
        string[] cylinders = marks.Split(' ');
        return new(angle, With('I'), With('X'));

        int[] With(char side) => [.. cylinders.Index().Where(c => c.Item.Contains(side, StringComparison.Ordinal)).Select(c => c.Index + 1)];
    }

    private static PublishedTable Radial(int[] order, string rows)
    {
        int[][] numbers = [.. rows.Split(' ').Select(r => r.Split(':', ',').Select(n => int.Parse(n, System.Globalization.CultureInfo.InvariantCulture)).ToArray())];
        return new(
            "18-cylinder radial",
            order,
            [.. numbers.Select(row => new PublishedPosition(((Array.IndexOf(order, row[0]) * 40) + 360) % 720, [row[1]], [row[2]])).OrderBy(p => p.Angle)]);
    }
}
