namespace Shimwright.Pages.Wording;

/// <summary>What a photo shows, in words.</summary>
internal static class PhotoWords
{
    public static string Of(string shows) => shows switch
    {
        "marks" => "timing marks",
        "shims" => "shims",
        "found" => "what was found",
        _ => "something else",
    };

    public static string Title(string shows) => shows switch
    {
        "marks" => "Timing marks",
        "shims" => "Shims",
        "found" => "What was found",
        _ => "Other",
    };
}
