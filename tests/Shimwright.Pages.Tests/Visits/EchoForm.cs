using System.Globalization;
using Microsoft.AspNetCore.Components.Forms;

namespace Shimwright.Pages.Tests.Visits;

/// <summary>Part of a form, as a row of a list or a measured part is. Parts hold texts only: of a number that cannot be read in one, the server makes nothing of the whole form.</summary>
public sealed class EchoPart
{
    public string? Text { get; set; } = "usual";

    public string? Other { get; set; }

    public EchoInner? Inner { get; set; }

    public override string ToString() => $"({Text ?? "null"} {Other ?? "null"} {Inner?.ToString() ?? "null"})";
}

/// <summary>Part of a part.</summary>
public sealed class EchoInner
{
    public string? Text { get; set; }

    public List<EchoLeaf> Leaves { get; set; } = [];

    public override string ToString() => $"({Text ?? "null"} {(Leaves is null ? "null" : string.Join(' ', Leaves.Select(l => l.Text ?? "null")))})";
}

/// <summary>Part of a part of a part.</summary>
public sealed class EchoLeaf
{
    public string? Text { get; set; }
}

/// <summary>What the forms of the bench inherit from.</summary>
public class EchoBase
{
    public Guid Action { get; set; }
}

/// <summary>A form with a field of every kind that the bench's forms have.</summary>
public sealed class EchoForm : EchoBase
{
    public string? Text { get; set; }

    public string Usual { get; set; } = "usual";

    public int Whole { get; set; } = 7;

    public int? MaybeWhole { get; set; }

    public double Real { get; set; }

    public double? MaybeReal { get; set; }

    public bool Flag { get; set; }

    public bool? MaybeFlag { get; set; }

    public Guid? MaybeId { get; set; }

    public EchoPart? Part { get; set; }

    public List<EchoPart> Parts { get; set; } = [new EchoPart { Text = "of its own" }];

    public List<string?> Texts { get; set; } = [];

    public List<int> Counts { get; set; } = [];

    public IBrowserFile? File { get; set; }

    public bool IsBlank => string.IsNullOrEmpty(Text);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Action} [{Text ?? "null"}] [{Usual ?? "null"}] {Whole} {Of(MaybeWhole)} {Real} {Of(MaybeReal)} {Flag} {Of(MaybeFlag)} {Of(MaybeId)} {Of(Part)} {All(Parts)} {All(Texts)} {All(Counts)} {Of(File?.Name)} {Of(File?.Size)}");

    private static string All<T>(List<T>? items) => items is null ? "null" : $"<{string.Join(' ', items.Select(i => $"[{Of(i)}]"))}>";

    private static string Of(object? value) => Convert.ToString(value, CultureInfo.InvariantCulture) is { Length: > 0 } text ? text : value is null ? "null" : "empty";
}
