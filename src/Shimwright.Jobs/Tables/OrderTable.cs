using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using Shimwright.Domain.Drawer;

namespace Shimwright.Jobs.Tables;

/// <summary>What to order as a file of lines and columns.</summary>
public static class OrderTable
{
    private static readonly string[] Names = ["diameter", "thickness", "wanted", "free", "level", "order", "price", "cost", "coveredNow", "coveredThen"];

    /// <summary>Writes a file.</summary>
    /// <param name="orders">The lines, each with its diameter, mm.</param>
    /// <returns>Text: lengths in mm, chances from 0 to 1; a price that is not known is blank.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="orders"/> is null.</exception>
    public static string Write(IEnumerable<(double Diameter, OrderLine Line)> orders)
    {
        ArgumentNullException.ThrowIfNull(orders);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new CsvWriter(text, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\n" }))
        {
            foreach (string name in Names)
            {
                csv.WriteField(name);
            }

            foreach ((double diameter, OrderLine line) in orders)
            {
                csv.NextRecord();
                csv.WriteField(Number(diameter, "0.###"));
                csv.WriteField(Number(line.Size, "0.000"));
                csv.WriteField(Number(line.Wanted.Mean, "0.000"));
                csv.WriteField(line.OnHand);
                csv.WriteField(line.Level);
                csv.WriteField(line.ToOrder);
                csv.WriteField(line.Price is { } price ? Number(price, "0.##") : "");
                csv.WriteField(Number(line.Cost, "0.##"));
                csv.WriteField(Number(line.CoveredNow, "0.000"));
                csv.WriteField(Number(line.CoveredThen, "0.000"));
            }

            csv.NextRecord();
        }

        return text.ToString();
    }

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
