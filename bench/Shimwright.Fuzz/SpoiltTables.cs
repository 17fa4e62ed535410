using System.Text;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tables;

namespace Shimwright.Fuzz;

/// <summary>Spoilt files of lines and columns.</summary>
internal sealed class SpoiltTables(int seed)
{
    private const string DrawerFile = "thickness,diameter,by,count,price\n2.55,9.48,micrometer,3,\n2.60,9.48,marked,1,4\n0.100 in,,calliper,2,8\n";

    private static readonly string[] Pieces =
        [",", "\n", "\"", ";", "\t", "\r", "", "-1", "0", "1e999", "NaN", "2.5e0", "9999999999", "\u0000", "mm", " in", "no", "firm", "light", "loose", "marked", "0.1", "10", "\uFEFF", "é", "=1+1"];

    private readonly Random _random = new(seed);

    public SpoiltInput Drawer() => SpoiltInput.Of("drawer", Spoil(DrawerFile), bytes => DrawerTable.Read(bytes));

    public SpoiltInput Trials() => SpoiltInput.Of("trials", Spoil(Demos.Trials), bytes =>
    {
        if (TrialFile.Read(bytes).Trials is { } trials)
        {
            FeelCalibrationResult result = FeelCalibrator.Fit(trials);
            if (result.Fit is { } fit)
            {
                ResultJson.Write(CalibrationResult.Of(trials, fit, result.Next), indented: false);
            }
        }
    });

    /// <summary>Cuts, repeats and fills in, a few times.</summary>
    public byte[] Spoil(string text)
    {
        StringBuilder spoilt = new(text);
        for (int left = 1 + _random.Next(6); left > 0 && spoilt.Length > 0; left--)
        {
            int at = _random.Next(spoilt.Length);
            int length = Math.Min(spoilt.Length - at, 1 + _random.Next(8));
            switch (_random.Next(4))
            {
                case 0:
                    spoilt.Remove(at, length);
                    break;
                case 1:
                    spoilt.Insert(_random.Next(spoilt.Length), spoilt.ToString(at, length));
                    break;
                case 2:
                    spoilt.Remove(at, length).Insert(at, Pieces[_random.Next(Pieces.Length)]);
                    break;
                default:
                    spoilt.Insert(at, Pieces[_random.Next(Pieces.Length)]);
                    break;
            }
        }

        return Encoding.UTF8.GetBytes(spoilt.ToString());
    }
}
